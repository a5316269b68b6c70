"""The card of a blend or technique."""

from collections.abc import Iterator

from bowlbook.book.book import Book
from bowlbook.pages.cards.card import card_of
from bowlbook.pages.maker import Output
from bowlbook.wording.locale_format import locale_format_of


def card(book: Book, kind: str, entry_id: str, site_url: str) -> Iterator[Output]:
    """The card. ``site_url``: as `card_of` takes it."""
    entry = book.blends[entry_id] if kind == "blend" else book.techniques[entry_id]
    return card_of(book, kind, entry, locale_format_of(book), site_url)
