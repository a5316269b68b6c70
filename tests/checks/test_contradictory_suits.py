"""contradictory-suits: a recipe that refuses every head it suits."""

import pytest

from checks.small_book import BLEND_FILE, SITUATION_FILE, TECHNIQUE_FILE, SmallBook


@pytest.fixture(autouse=True)
def a_head_of_which_little_is_said(book: SmallBook) -> None:
    """So that no refusal certainly holds for the small book's own situation."""
    book.edit(SITUATION_FILE, "{natural_level: 7, texture: [fine], lift: 2}", "{curl: [wavy]}")
    book.edit(
        TECHNIQUE_FILE,
        "suits:\n  natural_level: 6-10\n  texture: [fine, medium]\n",
        "suits: {density: [thin]}\n",
    )


@pytest.mark.parametrize(
    "when",
    ["{texture: [fine, medium]}", "{natural_level: 6-10}", "{natural_level: 1-10, texture: [fine, medium]}"],
)
def test_a_blend_that_refuses_all_it_suits(book: SmallBook, when: str) -> None:
    book.add(BLEND_FILE, f"not_for:\n  - when: «contradictory-suits»{when}\n    because: It is wrong.\n")
    book.shows(findings=1)


def test_a_technique_and_the_second_refusal(book: SmallBook) -> None:
    book.add(
        TECHNIQUE_FILE,
        "not_for:\n"
        "  - {when: {texture: [coarse]}, because: It shows.}\n"
        "  - {when: «contradictory-suits»{density: [thin, medium]}, because: It is wrong.}\n",
    )
    book.shows(findings=1)


@pytest.mark.parametrize(
    "when",
    [
        "{texture: [fine]}",  # one of two
        "{natural_level: 7-10}",  # all but level 6
        "{natural_level: 6-10, tone: [cool]}",  # only those who want it cool
        "{texture: [coarse], natural_level: 1-4}",  # the docstring's own
    ],
)
def test_a_corner_may_be_refused(book: SmallBook, when: str) -> None:
    book.add(BLEND_FILE, f"not_for: [{{when: {when}, because: It is right.}}]\n")
    book.shows(findings=0)


@pytest.mark.parametrize(
    "levels", ["natural_level: 10\n  lift: 1-3", "natural_level: 6-10\n  target_level: 1-3"]
)
def test_levels_that_no_hair_has_together(book: SmallBook, levels: str) -> None:
    book.edit(BLEND_FILE, "natural_level: 6-10\n  lift: 1-3", f"«contradictory-suits»{levels}")
    book.shows(findings=1)


@pytest.mark.parametrize(
    "levels",
    ["natural_level: 9-10\n  lift: 1-3", "natural_level: 6-10\n  target_level: 7", "natural_level: 10"],
)
def test_levels_that_some_hair_has_together(book: SmallBook, levels: str) -> None:
    book.edit(BLEND_FILE, "natural_level: 6-10\n  lift: 1-3", levels)
    book.shows(findings=0)
