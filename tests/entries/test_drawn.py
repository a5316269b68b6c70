"""Drawings of a technique: each takes its own words and no others, and says at the value what is wrong."""

import pytest

from bowlbook.entries.drawn import DIRECTIONS, FURTHER, SHOWN, TAKES, WEAVES
from checks.small_book import TECHNIQUE_FILE, SmallBook

RIGHT = (
    "{shows: slice}",
    "{shows: weaves, at_back: fine, at_front: bold}",
    "{shows: brick-laid triangles, rows: [3, 4, 5, 4]}",
    "{shows: painted surface, points: 3}",
    "{shows: pocket of depth}",
    "{shows: tipped ends, step: 1}",
    "{shows: triangle in two foils, backcomb: 50 %, backcomb_below: 75 %}",
    "{shows: backcombing, backcomb: 50 %}",
    "{shows: over-direction, direction: back}",
    "{shows: folding, folds: 2, direction: up}",
)
WRONG = (
    "{shows: «unknown-word»braids}",
    "{shows: «missing-key»weaves, at_back: fine}",
    "{shows: «missing-key»painted surface}",
    "{shows: «missing-key»folding, folds: 1}",
    "{shows: slice, points: «unknown-key»2}",
    "{shows: backcombing, backcomb: 50 %, direction: «unknown-key»up}",
    "{shows: backcombing, backcomb: «out-of-bounds»95 %}",
    "{shows: triangle in two foils, backcomb: 50 %, backcomb_below: «out-of-bounds»5 %}",
    "{shows: painted surface, points: «out-of-bounds»4}",
    "{shows: brick-laid triangles, rows: «out-of-bounds»[1, 1, 1, 1, 1, 1, 1]}",
    "{shows: over-direction, direction: «unknown-word»left}",
    "{shows: slice, step: «out-of-bounds»9}",
)


def test_whatever_can_be_drawn_is_accepted(book: SmallBook) -> None:
    assert [each.split(": ")[1].split(",")[0].rstrip("}") for each in RIGHT] == list(SHOWN)
    book.add(TECHNIQUE_FILE, "drawings:\n" + "".join(f"  - {each}\n" for each in RIGHT))
    book.shows(findings=0)


@pytest.mark.parametrize("drawing", WRONG)
def test_what_is_wrong_is_found_at_its_place(book: SmallBook, drawing: str) -> None:
    book.add(TECHNIQUE_FILE, f"drawings:\n  - {drawing}\n")
    book.shows(findings=1)


def test_every_further_field_belongs_to_something() -> None:
    assert set(TAKES) < set(SHOWN) and len(FURTHER) == 8
    assert len(set(WEAVES)) == 3 and len(set(DIRECTIONS)) == 4
