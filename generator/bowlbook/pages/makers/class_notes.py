"""What is made of the notes of a class."""

from collections.abc import Iterator

from bowlbook.book.book import Book
from bowlbook.book.long_texts import whole_at
from bowlbook.pages.class_page import class_page, handout_page
from bowlbook.pages.maker import Output
from bowlbook.pages.makers import LISTED
from bowlbook.pages.overview_page import listed_item
from bowlbook.pages.page import Piece
from bowlbook.wording.locale_format import locale_format_of


def class_notes(book: Book, entry_id: str) -> Iterator[Output]:
    """Their page, the handout, and their piece."""
    notes = whole_at(book.classes, entry_id)
    yield class_page(book, notes, locale_format_of(book))
    yield handout_page(book, notes)
    yield Piece(LISTED, listed_item(book, "class", notes))
