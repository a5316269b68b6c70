"""overdue-review: a recipe gone over too long ago, or never.

The house reviews after 180 days; 180 days before 25 November 2026 is 29 May 2026 (counted by hand: 2 days
of May, 30, 31, 31, 30, 31 and 25).
"""

import pytest

from checks.small_book import BLEND_FILE, CLASS_FILE, SITUATION_FILE, TECHNIQUE_FILE, SmallBook

RECIPES = [BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE]


@pytest.mark.parametrize("path", RECIPES)
def test_never_reviewed(book: SmallBook, path: str) -> None:
    book.edit(path, "reviewed: {on: 2026-10-02, by: Ines}\n", "")
    book.edit(path, "name: ", "name: «overdue-review?»")
    book.shows(findings=1)


@pytest.mark.parametrize("path", RECIPES)
def test_a_day_over(book: SmallBook, path: str) -> None:
    book.edit(path, "2026-10-02", "«overdue-review?»2026-05-28")
    book.shows(findings=1)


@pytest.mark.parametrize("path", RECIPES)
def test_the_last_day_still_counts(book: SmallBook, path: str) -> None:
    book.edit(path, "2026-10-02", "2026-05-29")
    book.shows(findings=0)
