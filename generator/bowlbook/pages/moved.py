"""Small pages at addresses that an entry had before: links, printed codes and bookmarks still lead to it.

Without scripts: a refresh, a link, and the new address as the canonical one.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDERS
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.figures.withdrawn import withdrawn_recipes
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.page import Document
from bowlbook.pages.policy import POLICY
from bowlbook.pages.render import render

INDEX = "index.html"
PRINTED = {
    "blend": ("card/", "strand-test/"),
    "technique": ("card/", "service/"),
    "class": ("cards/", "handout/"),
}
"""What is printed of an entry, below its page, by kind."""


class Moved(NamedTuple):
    """An address that leads to another one, and the name of the entry there."""

    address: str
    to: str
    name: str


def moved_addresses(book: Book, addresses: Iterable[str]) -> Iterator[Moved]:
    """Every address of an entry's pages as it was under each of its former ids.

    ``addresses``: of all pages of the site, from its top, each ending in a slash. What is retired, or
    mixed with what is, has no card, slip or sheet: their addresses lead to its page.
    """
    withdrawn = withdrawn_recipes(book)
    listed = sorted(addresses)
    for folder, kind in FOLDERS.items():
        own: dict[str, list[str]] = {}
        for address in listed:
            top, _, rest = address.partition("/")
            entry_id, _, below = rest.partition("/")
            if top == folder and entry_id:
                own.setdefault(entry_id, []).append(below)
        for entry_id, outline in outlines_of(book.of_kind(kind)).items():
            new = entry_address(kind, entry_id)
            for old in (entry_address(kind, each) for each in outline.formerly):
                yield from (Moved(old + below, new + below, outline.name) for below in own.get(entry_id, ()))
            if outline.retired or (kind, entry_id) in withdrawn:
                for before in (new, *(entry_address(kind, each) for each in outline.formerly)):
                    yield from (Moved(before + each, new, outline.name) for each in PRINTED.get(kind, ()))


def moved_page(book: Book, moved: Moved, site_url: str) -> Document:
    """The document at an old address. ``site_url``: the site's, for the canonical address; may be empty."""
    href = relative(moved.to, moved.address)
    html = render(
        "moved.html",
        moved.address,
        policy=POLICY,
        lang=book.house.locale,
        name=moved.name,
        house=book.house.title,
        href=href,
        canonical=f"{site_url.rstrip('/')}/{moved.to}" if site_url else href,
    )
    return Document(f"{moved.address}{INDEX}", html)
