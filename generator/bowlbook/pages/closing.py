"""The foot of an entry's page: its review stamp and the team's own notes."""

from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry
from bowlbook.entries.product import Product
from bowlbook.pages.free_text import free_text
from bowlbook.wording.locale_format import LocaleFormat
from bowlbook.wording.stamp import review_stamp


def closing_of(book: Book, entry: Entry, formats: LocaleFormat) -> dict[str, Any]:
    """``stamp``, ``private`` and ``reviewable`` for a template: a product needs no review."""
    return {
        "stamp": review_stamp(book, entry, formats),
        "reviewable": not isinstance(entry, Product),
        "private": free_text(getattr(entry, "private", None)),
    }
