"""``bowlbook plan`` on the time on the hair: a warning first, times beside the figures, two people if asked.

The minutes are worked out by hand beside each test.
"""

from pathlib import Path

import pytest

from checks.small_book import HAIR, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from commands.run import run, run_json

DENSE = "hair_amounts: {length: {medium: 1, long: 1.4}, density: {medium: 1, thick: 1.5}}\n"


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    book = SmallBook(tmp_path / "recipes")
    book.edit(HOUSE_FILE, HAIR, DENSE)
    return book


def text(book: SmallBook, *more: str) -> str:
    result = run("plan", "painting", *more, recipes=book.root)
    assert result.exit_code == 0, result.stderr
    return result.stdout


def test_a_head_that_takes_too_long_is_warned_of_first(book: SmallBook) -> None:
    """12 sections of 2 minutes and 35 from the last: 59. Thick hair, 18 sections: 71; two people: 18 + 35."""
    book.add("products/clay.yml", "longest_on_hair: 60 minutes\n")
    assert "Too long" not in text(book)
    head, warning, *_ = text(book, "--density", "thick").split("\n")
    assert head == "Open painting, medium hair, thick density"
    assert warning == (
        "Too long for this hair: 71 minutes on the hair, and the maker of Plain clay allows 60. "
        "With two people it is 53 minutes. Alone, rinse at 60, done or not."
    )
    time = run_json("plan", "painting", "--density", "thick", recipes=book.root)["time"]
    assert (time["limit"], time["limit_by"], time["over"]) == ("60", "clay", True)
    said = text(book, "--density", "thick", "--hands", "2")
    assert "Too long" not in said
    assert "Applying: 18 minutes, two people\n" in said
    assert "Last rinsed by: 53 minutes after the first section goes in\n" in said


def test_where_two_people_are_too_slow_as_well(book: SmallBook) -> None:
    book.add("products/clay.yml", "longest_on_hair: 52 minutes\n")
    book.edit(TECHNIQUE_FILE, "minutes: 35 minutes", "minutes: 34 minutes, counts_from: last section")
    said = text(book, "--density", "thick")
    assert "With two people it is 52 minutes." in said  # 18 + 34 are 52: two people would do
    book.add("products/clay.yml", "longest_on_hair: 51 minutes\n")
    assert "Rinse at 51, done or not, and lift the rest on another visit." in text(book, "--density", "thick")


def test_a_first_section_that_is_due_before_the_last_is_in(book: SmallBook) -> None:
    """Each section 35 minutes; 18 of them take 36."""
    book.edit(TECHNIQUE_FILE, "minutes: 35 minutes", "minutes: 35 minutes, counts_from: each section")
    remark = "The first section is due before the last one is in: look at it in time."
    assert remark not in text(book)
    assert remark in text(book, "--density", "thick")
    assert "First section rinsed by: 35 minutes after it goes in\n" in text(book)


def test_applying_that_is_not_known(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "    minutes_per_section: 2 minutes\n", "")
    said = text(book)
    assert "Processing: at most 35 minutes from the last section\n" in said
    assert "Last rinsed by" not in said and "Applying" not in said
    time = run_json("plan", "painting", recipes=book.root)["time"]
    assert (time["applying"], time["first_in_to_last_rinsed"], time["over"]) == (None, None, False)
    book.add("products/clay.yml", "longest_on_hair: 30 minutes\n")  # processing alone is longer
    assert "Too long for this hair: 35 minutes on the hair" in text(book)


@pytest.mark.parametrize("hands", ["0", "3", "two"])
def test_no_other_number_of_people(book: SmallBook, hands: str) -> None:
    assert run("plan", "painting", "--hands", hands, recipes=book.root).exit_code == 2
