"""How an answer is placed on one head: what was asked for, and what nothing refuses it."""

from dataclasses import replace

from bowlbook.book.book import Book
from bowlbook.figures.candidate import Candidate, candidate_of
from bowlbook.figures.head import bits_of, head_with
from bowlbook.figures.ruling import Clause
from bowlbook.figures.use import use_of

FOIL = bits_of("placement", ("foil",))
DARK = head_with(natural_level=1 << 3)


def oil(book: Book) -> Candidate:
    """A blend for the open air or foil."""
    found = candidate_of(book, "blend", "porous-oil")
    assert found is not None
    return found


def test_a_blend_is_placed_as_asked(demo_book: Book) -> None:
    assert use_of(demo_book, oil(demo_book)).placements == ("open-air", "foil")
    assert use_of(demo_book, oil(demo_book), head_with(placement=FOIL)).placements == ("foil",)


def test_a_placement_that_is_refused_this_head_is_not_named(demo_book: Book) -> None:
    open_air = head_with(natural_level=DARK[0], placement=bits_of("placement", ("open-air",)))
    blend = oil(demo_book)
    refused = replace(blend, excluded_by=(*blend.excluded_by, Clause(open_air, "It dries.", "this house")))
    assert use_of(demo_book, refused, DARK).placements == ("foil",)
    assert use_of(demo_book, refused, head_with(natural_level=1 << 6)).placements == ("open-air", "foil")
