"""Rendering of templates: the only module that imports Jinja2. Every value is escaped."""

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
    """Keeps compiled templates in memory for this process: the preview loads them again at each reload."""

    def __init__(self) -> None:
        self.bytecode: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Use the stored bytecode, if there is any; Jinja2 discards it where the template has changed."""
        if bucket.key in self.bytecode:
            bucket.bytecode_from_string(self.bytecode[bucket.key])

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Store the bytecode of a template."""
        self.bytecode[bucket.key] = bucket.bytecode_to_string()


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
    """Mark HTML as safe, so that it is not escaped again. Only for what templates or the sanitiser made."""
    return Markup(html)
