"""The review stamp and the team's own notes at the foot of an entry's page."""

from dataclasses import dataclass
from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry
from bowlbook.entries.product import Product
from bowlbook.entries.review import review_due
from bowlbook.pages.free_text import free_text
from bowlbook.pages.wording import Wording


@dataclass(frozen=True, slots=True)
class Stamp:
    """When an entry was last reviewed, by whom, and by when it is due again."""

    day: str
    by: str
    due: str
    change: str | None


def stamp_of(book: Book, entry: Entry, wording: Wording) -> Stamp | None:
    """An entry's stamp; None where it was never reviewed."""
    reviewed = getattr(entry, "reviewed", None)
    due = review_due(reviewed, book.house.review_after)
    if reviewed is None or due is None:
        return None
    return Stamp(wording.day(reviewed.on), reviewed.by, wording.day(due), reviewed.change)


def closing_of(book: Book, entry: Entry, wording: Wording) -> dict[str, Any]:
    """``stamp``, ``private`` and ``reviewable`` for a template: a product needs no review."""
    return {
        "stamp": stamp_of(book, entry, wording),
        "reviewable": not isinstance(entry, Product),
        "private": free_text(getattr(entry, "private", None)),
    }
