"""future-date: a review or a price dated after the day of the check."""

import pytest

from checks.small_book import BLEND_FILE, CLASS_FILE, CLAY_FILE, SITUATION_FILE, TECHNIQUE_FILE, SmallBook


@pytest.mark.parametrize("path", [BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE])
def test_a_review_tomorrow(book: SmallBook, path: str) -> None:
    book.edit(path, "on: 2026-10-02", "on: «future-date?»2026-11-26")
    book.shows(findings=1)


@pytest.mark.parametrize("path", [BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE])
def test_a_review_today_passes(book: SmallBook, path: str) -> None:
    book.edit(path, "on: 2026-10-02", "on: 2026-11-25")
    book.shows(findings=0)


def test_a_price_of_another_century(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "2026-09-01", "«future-date?»2062-09-01")
    book.shows(findings=1)


def test_a_price_of_today_passes(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "2026-09-01", "2026-11-25")
    book.shows(findings=0)
