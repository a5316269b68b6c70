"""What is matched with a head, and the pages of what suits one."""

from collections.abc import Iterator, Sequence
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.long_texts import whole_at
from bowlbook.figures.candidate import candidates_in_order
from bowlbook.figures.verdict import Practice, practice_with
from bowlbook.pages.facet_page import facet_page, situation_index
from bowlbook.pages.facet_value import FacetValue
from bowlbook.pages.maker import Output
from bowlbook.pages.makers import PRACTICE, SITUATIONS
from bowlbook.pages.page import Piece
from bowlbook.pages.situation_page import situation_page
from bowlbook.wording.locale_format import locale_format_of


def practice(book: Book, count: int, pieces: Sequence[Any]) -> Iterator[Output]:
    """What every head is matched with. ``count``: of the developer shares before the recipes."""
    shares = [each for each in pieces[:count] if each is not None]
    found = candidates_in_order(shown.candidate for recipes in pieces[count:] for shown in recipes)
    lightening, toning = ([each for each in found if each.tones == tones] for tones in (False, True))
    yield Piece(PRACTICE, practice_with(book, lightening, toning, shares))


def situations(book: Book) -> Piece:
    """The situations, indexed once for all pages of facet values."""
    return Piece(SITUATIONS, situation_index(book))


def facet(book: Book, value: FacetValue, pieces: Sequence[Any]) -> Output:
    """The page of one facet value."""
    found, index = pieces
    return facet_page(book, found, index, value)


def situation(book: Book, entry_id: str, pieces: Sequence[Practice]) -> Output:
    """The page of a situation."""
    return situation_page(book, whole_at(book.situations, entry_id), pieces[0], locale_format_of(book))
