"""Makers that contradict each other are refused: nothing of one may be lost in another's place."""

from collections.abc import Iterator, Sequence
from typing import Any

import pytest

from bowlbook.book.book import Book
from bowlbook.cache.cache import Cache
from bowlbook.cache.processes import all_made
from bowlbook.pages.maker import Maker, Output
from bowlbook.pages.page import Document, Page, Piece
from bowlbook.site import book_pages
from bowlbook.site.book_pages import pages_of


def page_at(book: Book, address: str) -> Iterator[Output]:
    yield Page(address, "A page", "A page.", "<p>A page.</p>", (), None)


def document_at(book: Book, path: str) -> Iterator[Output]:
    yield Document(path, "A document")


def one_piece(book: Book) -> Iterator[Output]:
    yield Piece("weight", 40)


def of_pieces(book: Book, pieces: Sequence[Any]) -> Iterator[Output]:
    yield Document("weights.json", str(list(pieces)))


PAGE, DOCUMENT = f"{__name__}:page_at", f"{__name__}:document_at"
PIECE, PIECES = f"{__name__}:one_piece", f"{__name__}:of_pieces"


@pytest.mark.parametrize(
    ("makers", "says"),
    [
        (
            [Maker("a", PAGE, "one/"), Maker("a", PAGE, "two/")],
            "Two makers have the name a",
        ),
        (
            [Maker("a", PAGE, "one/"), Maker("b", PAGE, "one/")],
            "Two makers make one/index.html",
        ),
        (
            [
                Maker("a", PAGE, "one/"),
                Maker("b", DOCUMENT, "one/index.html"),
            ],
            "Two makers make one/index.html",
        ),
        ([Maker("a", PIECES, needs=[("b", "weight")])], "there is no maker b"),
        (
            [
                Maker("b", PIECE),
                Maker("a", PIECES, needs=[("b", "volume")]),
            ],
            "The maker b makes no piece volume",
        ),
    ],
)
def test_what_is_refused(demo_book: Book, makers: list[Maker], says: str) -> None:
    with pytest.raises(ValueError, match=says):
        pages_of(Cache(), demo_book, "team", makers)


def test_what_is_not(demo_book: Book) -> None:
    makers = [
        Maker("a", PIECES, needs=[("b", "weight")]),
        Maker("b", PIECE),
    ]
    found = pages_of(Cache(), demo_book, "team", [*makers, Maker("c", PAGE, "one/")])
    assert [each.head.path for each in found] == ["weights.json", "one/index.html"]
    assert found[0].content == b"[40]"


def test_makers_that_wait_for_none_run_beside_what_others_wait_for(
    demo_book: Book, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else one process would make that alone, and the others had nothing to do."""
    rounds: list[int] = []
    monkeypatch.setattr(book_pages, "all_made", lambda jobs: rounds.append(len(jobs)) or all_made(jobs))
    makers = [
        Maker("a", PAGE, "one/"),
        Maker("b", PIECES, needs=[("c", "weight")]),
        Maker("c", PIECE),
    ]
    pages_of(Cache(), demo_book, "team", makers)
    assert rounds == [2, 1]
