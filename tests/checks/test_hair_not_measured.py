"""hair-not-measured: a class shows a technique on hair of a length or density without a factor."""

import pytest

from checks.small_book import CLASS_FILE, HAIR, HOUSE_FILE, SmallBook


@pytest.mark.parametrize(
    ("shown", "mend"),
    [
        ("length: «hair-not-measured?»long", "Add long to hair_amounts in house.yml."),
        ("length: «hair-not-measured?»extra_long", "Add extra_long to hair_amounts in house.yml."),
        ("density: «hair-not-measured?»thick", "Add thick to hair_amounts in house.yml."),
    ],
)
def test_at_the_length_or_the_density(book: SmallBook, shown: str, mend: str) -> None:
    book.edit(CLASS_FILE, "heads: 1}", f"heads: 1, {shown}}}")
    [found] = book.shows(findings=1)
    assert found.mend == mend


def test_the_usual_hair_is_medium_and_may_be_unmeasured_too(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, HAIR, "hair_amounts: {length: {short: 1}, density: {medium: 1}}\n")
    book.edit(CLASS_FILE, "  - {technique", "  - «hair-not-measured?»{technique")
    book.shows(findings=1)


def test_hair_that_is_measured(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "heads: 1}", "heads: 1, length: short, density: thin}")
    book.shows(findings=0)


def test_a_house_that_has_measured_nothing_is_found_once(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "heads: 1}", "heads: 1, length: long}")
    book.write(HOUSE_FILE, "«no-hair-amounts?»" + book.texts[HOUSE_FILE].replace(HAIR, ""))
    book.shows(findings=1)
