"""batch-over-bowl: a listed size that no bowl holds. 20 oz are 567 g, and 17 oz are 482 g."""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook

LADDER = "batches: {oz: [1, 2], g: [20, 40]}"


def test_in_the_house_and_in_a_blend(book: SmallBook) -> None:
    book.edit(
        HOUSE_FILE, LADDER, "batches: {oz: [1, 17, «batch-over-bowl?»20], g: [500, «batch-over-bowl?»501]}"
    )
    book.add(BLEND_FILE, "batches:\n  oz: [1]\n  g: [40, «batch-over-bowl?»600]\n")
    found = book.shows(findings=3)
    assert found[0].message == "600 g of lightener is more than fits one bowl (500 g)."


@pytest.mark.parametrize(
    ("most", "mark"), [("200 g", "«batch-over-bowl?»"), ("8 oz", ""), ("0.2 kg", "«batch-over-bowl?»")]
)
def test_the_house_says_what_fits(book: SmallBook, most: str, mark: str) -> None:
    """220 g against 200 g, 226.8 g and 200 g."""
    book.edit(HOUSE_FILE, LADDER, f"batches: {{oz: [1], g: [{mark}220]}}\nlargest_batch: {most}")
    book.shows(findings=1 if mark else 0)
