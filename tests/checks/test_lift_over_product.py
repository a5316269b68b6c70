"""lift-over-product: more levels of lift than the strongest lightener gives."""

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, POWDER_FILE, SmallBook


def test_more_than_the_strongest(book: SmallBook) -> None:
    book.add(BLEND_FILE, "cautions: [Watch it.]\n")
    book.edit(BLEND_FILE, "lift: 1-3", "lift: «lift-over-product?»1-8")
    book.shows(findings=1)


def test_as_much_as_the_strongest_passes(book: SmallBook) -> None:
    book.add(BLEND_FILE, "cautions: [Watch it.]\n")
    book.edit(CLAY_FILE, "lifts: 5", "lifts: 3")
    book.edit(POWDER_FILE, "lifts: 7", "lifts: 4")
    book.edit(BLEND_FILE, "lift: 1-3", "lift: 4")
    book.shows(findings=0)


@pytest.mark.parametrize("lifts", ["3", "2"])
def test_whichever_is_the_strongest(book: SmallBook, lifts: str) -> None:
    book.edit(CLAY_FILE, "lifts: 5", "lifts: 1")
    book.edit(POWDER_FILE, "lifts: 7", f"lifts: {lifts}")
    book.edit(BLEND_FILE, "lift: 1-3", "lift: 1-3" if lifts == "3" else "lift: «lift-over-product?»1-3")
    book.shows(findings=0 if lifts == "3" else 1)


def test_without_a_lift_nothing_is_promised(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "lifts: 5", "lifts: 1")
    book.edit(POWDER_FILE, "lifts: 7", "lifts: 1")
    book.edit(BLEND_FILE, "  lift: 1-3\n", "")
    book.shows(findings=0)
