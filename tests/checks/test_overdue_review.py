"""overdue-review: a recipe gone over too long ago, or never.

The house reviews after 180 days; 180 days before 25 November 2026 is 29 May 2026 (counted by hand: 2 days
of May, 30, 31, 31, 30, 31 and 25).
"""

import pytest

from checks.small_book import (
    BLEND_FILE,
    CLASS_FILE,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    TROUBLE,
    TROUBLE_FILE,
    SmallBook,
)

RECIPES = [BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE, TROUBLE_FILE]


@pytest.fixture(autouse=True)
def with_a_trouble(book: SmallBook) -> None:
    book.write(TROUBLE_FILE, TROUBLE)


@pytest.mark.parametrize("path", RECIPES)
def test_never_reviewed(book: SmallBook, path: str) -> None:
    book.edit(path, "reviewed: {on: 2026-10-02, by: Ines}\n", "")
    book.shows((path, "name: ", "name: «overdue-review?»"), findings=1)


@pytest.mark.parametrize("path", RECIPES)
def test_a_day_over_is_found_and_the_last_day_counts(book: SmallBook, path: str) -> None:
    book.shows((path, "2026-10-02", "«overdue-review?»2026-05-28"), findings=1)
    book.shows((path, "«overdue-review?»2026-05-28", "2026-05-29"), findings=0)
