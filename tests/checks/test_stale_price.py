"""stale-price: a price older than the house lets prices be.

Where the house says nothing, 365 days: 365 days before 25 November 2026 is 25 November 2025.
"""

import pytest

from checks.small_book import CLAY_FILE, FOIL_FILE, HOUSE_FILE, SmallBook


@pytest.mark.parametrize("path", [CLAY_FILE, FOIL_FILE])
def test_a_day_too_old(book: SmallBook, path: str) -> None:
    book.edit(path, "2026-09-01", "«stale-price?»2025-11-24")
    found = book.shows(findings=1)
    assert "stale since 2026-11-25" in found[0].message


def test_the_last_day_still_counts(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "2026-09-01", "2025-11-25")
    book.shows(findings=0)


@pytest.mark.parametrize(("days", "findings"), [("85 days", 0), ("84 days", 4), ("12 weeks", 4)])
def test_the_house_may_be_stricter(book: SmallBook, days: str, findings: int) -> None:
    # From 1 September to 25 November are 85 days: 29 of September, 31, 25. Four products have a price.
    book.add(HOUSE_FILE, f"prices_stale_after: {days}\n")
    if findings:
        for path in [path for path in book.texts if path.startswith("products/")]:
            book.edit(path, "2026-09-01", "«stale-price?»2026-09-01")
    book.shows(findings=findings)


def test_a_day_without_a_price_is_not_stale(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "price: 39.00, priced_on: 2026-09-01", "priced_on: 2020-01-31")
    book.shows(findings=0)
