"""What a book has to show: its overview pages, for the menu and the front page."""

from collections.abc import Iterator
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer, Lightener, Toner
from bowlbook.pages.address import index_address
from bowlbook.wording.entry import KIND_TITLES

LEADS = {
    "situation": "Find the hair situation; its page says what to mix, how to place it, and what not to.",
    "blend": "What to mix, with the bowl in every batch size.",
    "technique": "How a blend is placed, how long it stays, and what it takes.",
    "trouble": "What to do now, what never, and when a doctor is needed.",
    "product": "What stands on the shelf, where it may go, and who uses it.",
    "class": "What is taught, in what order, with the handout.",
}


class Overview(NamedTuple):
    """An overview page: its title, its address from the site's top, and what one finds there.

    ``shown``: whether this book has anything on it. ``group``: the title of the group that it belongs to.
    """

    title: str
    address: str
    lead: str
    shown: bool
    group: str = ""


def overviews_of(book: Book) -> Iterator[Overview]:
    """Every overview page that a book can have, in the menu's order. Troubles always have first aid."""
    has_recipe = bool(book.blends or book.techniques)
    yield Overview(
        "Pick by hair", "pick/", "Tap level, texture and tone; the answer comes at once.", has_recipe
    )
    yield _index(book, "situation")
    lead = "What suits each texture, level, area and wish."
    yield Overview("By kind of hair", "heads/", lead, has_recipe)
    yield _index(book, "blend")
    has_base = any(isinstance(each, Lightener | Toner) for each in book.products.values())
    has_bowl = has_base and any(isinstance(each, Developer) for each in book.products.values())
    lead = "Put a bowl together from the shelf: the figures come as you type."
    yield Overview("Try a blend", "try/", lead, has_bowl)
    for kind in ("technique", "trouble", "product", "class"):
        yield _index(book, kind)
    lead = "Every blend and technique on a card, or a whole set of cards."
    yield Overview("Cards to print", "cards/", lead, has_recipe)
    has_stamps = any(book.of_kind(kind) for kind in KIND_TITLES if kind != "product")
    yield Overview("Recent changes", "changes/", "What was reviewed or changed, newest first.", has_stamps)
    yield from _reports(book)


def _index(book: Book, kind: str) -> Overview:
    shown = kind == "trouble" or bool(book.of_kind(kind))
    return Overview(KIND_TITLES[kind], index_address(kind), LEADS[kind], shown)


def _reports(book: Book) -> Iterator[Overview]:
    has_blends = bool(book.blends)
    for title, name, shown in (
        ("Costs", "costs", has_blends and book.priced),
        ("Weighing", "weighing", has_blends),
        ("Out of date", "dates", any(book.of_kind(kind) for kind in KIND_TITLES)),
        ("Coverage", "coverage", has_blends),
    ):
        yield Overview(title, f"reports/{name}/", "", shown, "Reports")
