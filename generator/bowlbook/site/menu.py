"""The menu of a site: what the book has to show, then the pages written by hand, then the manual."""

from collections.abc import Collection, Iterable, Iterator
from typing import Any

from mkdocs.utils import nest_paths

from bowlbook.book.book import Book
from bowlbook.pages.contents import overviews_of
from bowlbook.pages.manual import manual_menu

MANUAL = "Keeping the book"
HOME = "index.md"


def menu_of(book: Book, by_hand: Iterable[str], *, manual: bool) -> list[Any]:
    """The menu where ``mkdocs.yml`` has none, as its ``nav`` would be written.

    ``by_hand``: the paths of the pages in ``docs_dir`` that are for a menu.
    """
    menu: list[Any] = [{"Home": HOME}]
    for each in overviews_of(book):
        if not each.shown:
            continue
        item = {each.title: f"{each.address}index.md"}
        if not each.group:
            menu.append(item)
        elif menu[-1].get(each.group) is not None:
            menu[-1][each.group].append(item)
        else:
            menu.append({each.group: [item]})
    menu += nest_paths(path for path in by_hand if path != HOME)  # type: ignore[no-untyped-call]
    if manual:
        menu.append({MANUAL: [{title: path} for title, path in manual_menu()]})
    return menu


def absent_pages(book: Book, *, manual: bool) -> set[str]:
    """The pages that a menu may name, and of which this copy has none or an empty one."""
    absent = {f"{each.address}index.md" for each in overviews_of(book) if not each.shown}
    return absent if manual else absent | {path for _, path in manual_menu()}


def without_pages(nav: Any, absent: Collection[str]) -> Any:
    """A menu without these pages, and without groups that hold nothing else; None where nothing is left."""
    if isinstance(nav, list):
        kept = [without_pages(each, absent) for each in nav]
        return [each for each in kept if each is not None] or None
    if isinstance(nav, dict):
        items = {key: without_pages(value, absent) for key, value in nav.items()}
        return {key: value for key, value in items.items() if value is not None} or None
    return None if nav in absent else nav


def titled_pages(nav: Any) -> Iterator[tuple[str, str]]:
    """Each title that a menu gives a page, and the page's path."""
    if isinstance(nav, list):
        for each in nav:
            yield from titled_pages(each)
    elif isinstance(nav, dict):
        for key, value in nav.items():
            yield from [(key, value)] if isinstance(value, str) else titled_pages(value)
