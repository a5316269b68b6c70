"""Rendering of templates: the only module that imports Jinja2. Every value is escaped."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined, TemplateError, nodes
from jinja2.bccache import Bucket
from jinja2.compiler import CodeGenerator, Frame
from markupsafe import Markup, escape

from bowlbook.cache.cache import Cache, Result, made_of
from bowlbook.figures.pigment import UNDERLYING
from bowlbook.pages.address import entry_address, index_address, relative
from bowlbook.pages.asset import asset_folder
from bowlbook.pages.verdict_sign import SIGNS
from bowlbook.wording.caution import USUAL_SAYS, USUAL_SHORT
from bowlbook.wording.facet import LEVEL_WORDS

TEMPLATES = Path(__file__).parent / "templates"
UNSAFE = re.compile("[&<>\"']")
"""What `markupsafe.escape` replaces."""


class Compiled(BytecodeCache):
    """Compiled templates as results in a book's cache: compiling takes longer than rendering a page."""

    def __init__(self, results: Cache) -> None:
        self.results = results

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill in what is stored of a template, unless its source has changed."""
        result = self._result(bucket)
        if result.digest is not None:
            bucket.bytecode_from_string(result.value)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Store it."""
        self._result(bucket).keep(made_of(bucket.bytecode_to_string()))

    def _result(self, bucket: Bucket) -> Result[bytes]:
        return self.results.result("template", bucket.key, bucket.checksum.encode(), bytes)


def set_compiled(compiled: Compiled) -> None:
    """Take the pages' templates from there, and store them there."""
    _environment().bytecode_cache = compiled


def compile_templates() -> None:
    """Compile every template, or load it: a process that is begun after this need not."""
    for name in _environment().list_templates():
        _environment().get_template(name)


class _Generator(CodeGenerator):
    """Escapes what a template puts out with `_Environment.escaped`."""

    def _output_child_pre(self, node: nodes.Expr, frame: Frame, finalize: Any) -> None:
        self.write("environment.escaped(")


class _Environment(Environment):
    """Two shortcuts for many small values: a third of the time that pages take to render."""

    code_generator_class = _Generator

    @staticmethod
    def escaped(value: Any) -> str:
        """A value as HTML. `escape` makes a `Markup` of each, also of a number without any markup."""
        if type(value) is str and UNSAFE.search(value) is None:
            return value
        return value if type(value) is Markup else escape(value)

    def make_globals(self, d: Mapping[str, Any] | None) -> dict[str, Any]:
        """The names that a template knows: a plain dictionary, since none is added to ours later."""
        return {**self.globals, **(d or {})}


@cache
def _environment() -> Environment:
    made = _Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        # A misspelt name in a template fails the build instead of leaving a blank where a weight should be.
        undefined=StrictUndefined,
        auto_reload=False,  # the program does not change while it runs
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(
        verdict_signs=SIGNS,
        usual_short=USUAL_SHORT,
        usual_says=USUAL_SAYS,
        level_words=LEVEL_WORDS,
        exposed_words=[each.shows for each in UNDERLYING],
    )
    return made


def render(template: str, address: str, **values: Any) -> str:
    """The HTML of a template for the page at ``address``.

    ``link(kind, id)``, ``index(kind)``, ``to(address)`` and ``asset(name)`` give relative links from there.
    Raises ValueError where there is no such template, or where it uses a name that it is not given.
    """
    links = {
        "link": lambda kind, entry_id: relative(entry_address(kind, entry_id), address),
        "index": lambda kind: relative(index_address(kind), address),
        "to": lambda other: relative(other, address),
        "asset": lambda name: relative(f"{asset_folder()}/{name}", address),
    }
    try:
        return _environment().get_template(template).render(links, **values)
    except TemplateError as error:
        # Another error than for a template of the theme: this one is a fault of the program, not of a house.
        raise ValueError(f"The template {template} cannot be rendered: {error}") from error


def finished(html: str) -> Markup:
    """Mark HTML as safe, so that it is not escaped again. Only for what templates or the sanitiser made."""
    return Markup(html)
