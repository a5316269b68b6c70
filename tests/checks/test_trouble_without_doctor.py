"""trouble-without-doctor: a trouble that harms the person, and no word of when a doctor is needed."""

import pytest

from checks.small_book import TROUBLE, TROUBLE_FILE, SmallBook

DOCTOR = "doctor: [Blisters, or pain after rinsing.]\n"


def test_an_empty_list_is_none(book: SmallBook) -> None:
    book.write(TROUBLE_FILE, TROUBLE.replace(DOCTOR, "doctor: []\n"))
    book.shows((TROUBLE_FILE, "at_risk: person", "at_risk: «trouble-without-doctor»person"), findings=1)


@pytest.mark.parametrize("risk", ["hair", "bowl"])
def test_one_of_the_hair_or_the_bowl_needs_none(book: SmallBook, risk: str) -> None:
    book.write(TROUBLE_FILE, TROUBLE.replace(DOCTOR, ""))
    book.shows((TROUBLE_FILE, "at_risk: person", f"at_risk: {risk}"), findings=0)
