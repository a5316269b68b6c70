"""What the demo book's answers are made from: worked out once, since most tests here ask for it."""

import pytest

from bowlbook.book.book import Book
from bowlbook.figures.candidate import Candidate, candidates_of
from bowlbook.figures.verdict import Practice, practice_of


@pytest.fixture(scope="session")
def candidates(demo_book: Book) -> list[Candidate]:
    """Every recipe of the demo book that may be an answer."""
    return candidates_of(demo_book)


@pytest.fixture(scope="session")
def practice(demo_book: Book) -> Practice:
    """What the demo book answers from."""
    return practice_of(demo_book)
