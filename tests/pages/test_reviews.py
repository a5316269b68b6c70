"""What pages and the report of dates say of reviews: the same of each entry."""

from tests.checks.small_book import CLAY_FILE, SmallBook

from bowlbook.pages.all_pages import makers_of
from bowlbook.pages.page import Page


def bodies(book: SmallBook, *names: str) -> dict[str, str]:
    """The pages of some makers, by address."""
    read = book.read()
    made = [page for each in makers_of(read) if each.name in names for page in each.make(read)]
    return {page.address: str(page.body) for page in made if isinstance(page, Page)}


def test_a_product_needs_no_review(book: SmallBook) -> None:
    found = bodies(book, "product/clay", "dates")
    assert "Never reviewed" not in found["products/clay/"]
    assert "Every recipe has been reviewed." in found["reports/dates/"]


def test_a_product_that_was_reviewed_says_so_and_is_in_the_report(book: SmallBook) -> None:
    book.add(CLAY_FILE, "reviewed: {on: 2026-10-02, by: Ines}\n")
    found = bodies(book, "product/clay", "dates")
    assert "Reviewed on October 2, 2026" in found["products/clay/"]
    assert found["reports/dates/"].count("products/clay/") == 2  # its review and its price


def test_a_recipe_that_nobody_reviewed_is_named_in_both(book: SmallBook) -> None:
    book.edit("blends/soft-clay.yml", "reviewed: {on: 2026-10-02, by: Ines}\n", "")
    found = bodies(book, "blend/soft-clay", "dates")
    assert "Never reviewed." in found["blends/soft-clay/"]
    assert "Every recipe has been reviewed." not in found["reports/dates/"]
    assert "blends/soft-clay/" in found["reports/dates/"]
