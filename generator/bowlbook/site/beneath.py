"""A book beneath a folder of a MkDocs site that has pages of its own: those are rendered as without the book.

Only the book's pages get our templates, through an environment of their own, and only they see our options.
"""

import copy
import re
from collections.abc import Sequence
from html import escape
from typing import Any

from jinja2 import ChoiceLoader, Environment, FileSystemLoader, PrefixLoader
from mkdocs.config.base import ValidationError
from mkdocs.config.config_options import Type
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure import StructureItem
from mkdocs.structure.nav import Link, Navigation, Section

from bowlbook.book.book import Book
from bowlbook.pages.asset import STYLE
from bowlbook.site.menu import menu_of

FRAME = "bowlbook/main.html"
"""What an entry's page names as its template; the theme has none of that name."""
FOLDERS = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._-]*(/[A-Za-z0-9_][A-Za-z0-9._-]*)*")


class Beneath(Type[str]):
    """The folder of a site that the book is beneath, as ``recipes/``; empty, the site is the book's own."""

    def __init__(self) -> None:
        super().__init__(str, default="")

    def run_validation(self, value: object) -> str:
        """The folder with a slash at its end, or nothing. Raises ValidationError."""
        if value == "":
            return ""
        found = value.rstrip("/") if isinstance(value, str) else ""
        if not FOLDERS.fullmatch(found):
            raise ValidationError(
                f'"{value}" is no folder of a site. Write it as recipes/: letters, digits, hyphens.'
            )
        return f"{found}/"


def book_environment(env: Environment, own: str, dirs: Sequence[str], custom: str | None) -> Environment:
    """The theme's environment with our templates in front, for the book's pages alone.

    ``own``: the folder of our templates, ``dirs``: those of the theme, of which ``custom`` is the site's own.
    """
    theme = FileSystemLoader([each for each in dirs if each != custom])
    return env.overlay(loader=ChoiceLoader([FileSystemLoader([own, *dirs]), PrefixLoader({"theme": theme})]))


def options_for_pages(config: MkDocsConfig, extra: dict[str, Any]) -> MkDocsConfig:
    """The configuration as the book's pages see it: our style in place of the site's own styles and scripts.

    Those are written for the theme's page, which a page of the book does not have around it.
    """
    own = copy.copy(config)
    own["extra_css"], own["extra_javascript"] = [f"{extra['bowlbook_assets']}/{STYLE}"], []
    own["extra"] = {**config.extra, **extra}
    return own


def menu_for_pages(book: Book, site: Navigation, name: str, beneath: str) -> Navigation:
    """The menu on the book's pages: the book's own, then that of the site, under its name."""
    items: list[StructureItem] = [Link(escape(book.house.title), beneath)]
    for item in menu_of(book, (), manual=False)[1:]:  # without the front page, which is there already
        ((title, found),) = item.items()
        if isinstance(found, str):
            items.append(_link(title, found, beneath))
        else:
            inner: list[StructureItem] = [
                _link(name, path, beneath) for group in found for name, path in group.items()
            ]
            items.append(Section(title, inner))
    menu = Navigation([*items, Section(name, site.items)], site.pages)
    menu.homepage = site.homepage
    return menu


def _link(title: str, path: str, beneath: str) -> Link:
    return Link(title, beneath + path.removesuffix("index.md"))
