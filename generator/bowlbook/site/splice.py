"""The theme rendered once for each shape of page, and the pages of that shape put into it.

Exact, or not done: what a template asks of its page is watched, and a shape whose template asks for more than
is known to be put in, or whose first page comes out otherwise than from the theme itself, is always rendered.
"""

import re
from collections.abc import Iterator
from functools import partial
from typing import Any, Protocol

from mkdocs.structure.toc import AnchorLink
from mkdocs.utils import write_file

from bowlbook.cache.processes import all_made
from bowlbook.site.entry_page import START, EntryPage

MARK = "qzbbx"
"""Begins a token in the place of a page's own words in a shape; no theme holds it."""
H1 = "<h1"
"""What the theme looks for in a page's contents, before it adds a heading of its own."""
TOKEN = re.compile(rf"(?:{H1}>(?={MARK}content))?{MARK}([a-z]+[0-9]*)x")
SAME_FOR_ALL = ("is_homepage", "previous_page", "next_page", "parent", "edit_url", "is_section", "is_page")
"""What a template may ask of a page beside its words: the same for all pages out of the navigation."""


class Template(Protocol):
    """A template of the theme."""

    def render(self, context: dict[str, Any]) -> str:
        """The page as HTML."""


class _Model:
    """A page whose words are tokens; remembers whether it was asked for anything else."""

    def __init__(self, page: EntryPage, folder: str, follow: int) -> None:
        """``folder`` of its address, and how many parts follow that."""
        self._page = page
        self.asked_more = False
        self.title = f"{MARK}titlex"
        self.content = f"{H1}>{MARK}contentx"
        self.meta = {**page.meta, "description": f"{MARK}descriptionx"}
        start = AnchorLink(f"{MARK}titlex", START, 1)
        for number in range(len(_headings(page))):
            start.children.append(AnchorLink(f"{MARK}title{number}x", f"{MARK}anchor{number}x", 2))
        self.toc = [start]
        self.url = folder + "".join(f"{MARK}part{place}x/" for place in range(follow))
        self.canonical_url = page.canonical_url and f"{MARK}canonicalx"

    def __getattr__(self, name: str) -> Any:
        value = getattr(self._page, name)
        if name not in SAME_FOR_ALL or value:
            self.asked_more = True
        return value


class Spliced:
    """A template that is rendered once for each shape of entry page.

    Pages as deep below one folder of the book have one shape. Where that is not exact, as where the theme
    leads to a folder in between, only those in the same folder have. ``beneath``: the folder that the book is
    beneath, the same for all its pages.
    """

    def __init__(self, template: Template, beneath: str, *, waits: bool) -> None:
        """``waits``: pages whose shape is known are empty, and written together by `write`."""
        self.template, self.beneath = template, beneath
        self.shapes: dict[tuple[str, int, int], list[str] | None] = {}
        """By the folder, how many parts of an address follow it, and how many headings a page has. Empty
        where that is not exact, None where the template asks for more."""
        self._waiting: list[dict[str, Any]] | None = [] if waits else None

    def __getattr__(self, name: str) -> Any:
        """Whatever else a template has, for the templates that extend this one."""
        return getattr(self.template, name)

    def render(self, context: dict[str, Any]) -> str:
        """The page as the template itself would render it; empty where it waits for `write`."""
        page = context["page"]
        if not isinstance(page, EntryPage) or page.next_page or page.previous_page or page.parent:
            return self.template.render(context)
        if self._waiting is not None and self._is_known(page):
            self._waiting.append(context)  # MkDocs writes no file for an empty page
            return ""
        return self._rendered(context, page)

    def write(self) -> None:
        """Write the pages that wait, in several processes."""
        for _ in all_made([partial(self._write, context) for context in self._waiting or ()]):
            pass

    def _write(self, context: dict[str, Any]) -> None:
        page: EntryPage = context["page"]
        page.active = True  # as MkDocs has it for the theme
        html = self._rendered(context, page)
        write_file(html.encode("utf-8", "xmlcharrefreplace"), page.file.abs_dest_path)

    def _rendered(self, context: dict[str, Any], page: EntryPage) -> str:
        content = page.content or ""
        if H1 not in content:
            return self.template.render(context)
        for shape, rest in self._shapes_of(page):
            if shape not in self.shapes:
                real = self.template.render(context)
                pieces = self._pieces(context, page, f"{shape[0]}/", len(rest))
                if pieces and _filled(pieces, page, content, rest) != real:
                    pieces = []
                self.shapes[shape] = pieces
                return real
            known = self.shapes[shape]
            if known:
                return _filled(known, page, content, rest)
            if known is None:
                break
        return self.template.render(context)

    def _is_known(self, page: EntryPage) -> bool:
        found = (self.shapes.get(shape) for shape, _ in self._shapes_of(page))
        return bool(next((pieces for pieces in found if pieces != []), None))

    def _shapes_of(self, page: EntryPage) -> Iterator[tuple[tuple[str, int, int], list[str]]]:
        """The shapes that a page may have, each with the parts of its address that follow the folder."""
        parts = page.url.removeprefix(self.beneath).split("/")[:-1]
        for depth in sorted({1, max(1, len(parts) - 1)}):
            rest = parts[depth:]
            yield ("/".join(parts[:depth]), len(rest), len(_headings(page))), rest

    def _pieces(self, context: dict[str, Any], page: EntryPage, folder: str, follow: int) -> list[str] | None:
        """The shape of a page, text and names of tokens by turns; None where it asks for more."""
        model = _Model(page, f"{self.beneath}{folder}", follow)
        text = self.template.render({**context, "page": model})
        return None if model.asked_more else TOKEN.split(text)


def _headings(page: EntryPage) -> list[Any]:
    """The table of contents below the page's first heading."""
    return next(iter(page.toc)).children


def _filled(pieces: list[str], page: EntryPage, content: str, rest: list[str]) -> str:
    words = {
        "title": page.title or "",
        "content": content,
        "description": page.meta["description"],
        "canonical": page.canonical_url or "",
    }
    for number, part in enumerate(rest):
        words[f"part{number}"] = part
    for number, item in enumerate(_headings(page)):
        words[f"title{number}"] = item.title
        words[f"anchor{number}"] = item.url.removeprefix("#")
    return "".join(words[piece] if place % 2 else piece for place, piece in enumerate(pieces))
