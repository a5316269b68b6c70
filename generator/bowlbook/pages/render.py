"""Templates: the one room that knows Jinja2. Everything put into a template is escaped."""

from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup

from bowlbook.pages.address import entry_address, index_address, relative
from bowlbook.pages.asset import asset_folder

TEMPLATES = Path(__file__).parent / "templates"


class Compiled(BytecodeCache):
    """Compiled templates for as long as this process lives: each reload of the preview loads them anew."""

    def __init__(self) -> None:
        self.known: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill in what is known; a template that has changed is not taken."""
        if bucket.key in self.known:
            bucket.bytecode_from_string(self.known[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Remember it."""
        self.known[bucket.key] = bucket.bytecode_to_string()


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def render(template: str, address: str, **values: Any) -> str:
    """The HTML of a template for the page at ``address``.

    ``link(kind, id)``, ``index(kind)``, ``to(address)`` and ``asset(name)`` give relative links from there.
    """
    return (
        _environment()
        .get_template(template)
        .render(
            link=lambda kind, entry_id: relative(entry_address(kind, entry_id), address),
            index=lambda kind: relative(index_address(kind), address),
            to=lambda other: relative(other, address),
            asset=lambda name: relative(f"{asset_folder()}/{name}", address),
            **values,
        )
    )


def finished(html: str) -> Markup:
    """Marks HTML from our own templates or the sanitiser as finished, so that it is not escaped again."""
    return Markup(html)
