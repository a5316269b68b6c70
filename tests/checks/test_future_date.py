"""future-date: a review or a price dated after the day of the check."""

import pytest

from checks.small_book import BLEND_FILE, CLASS_FILE, CLAY_FILE, SITUATION_FILE, TECHNIQUE_FILE, SmallBook

TOMORROW, TODAY = "«future-date?»2026-11-26", "2026-11-25"
REVIEWED = [(path, "2026-10-02") for path in (BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE)]


@pytest.mark.parametrize(("path", "day"), [*REVIEWED, (CLAY_FILE, "2026-09-01")])
def test_tomorrow_is_found_and_today_passes(book: SmallBook, path: str, day: str) -> None:
    book.shows((path, day, TOMORROW), findings=1)
    book.shows((path, TOMORROW, TODAY), findings=0)
