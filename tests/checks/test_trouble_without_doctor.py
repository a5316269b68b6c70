"""trouble-without-doctor: a trouble that harms the person, and no word of when a doctor is needed."""

import pytest

from checks.small_book import TROUBLE, TROUBLE_FILE, SmallBook

DOCTOR = "doctor: [Blisters, or pain after rinsing.]\n"


@pytest.fixture
def troubled(book: SmallBook) -> SmallBook:
    book.write(TROUBLE_FILE, TROUBLE)
    return book


def test_one_with_a_doctor_is_fine(troubled: SmallBook) -> None:
    troubled.shows(findings=0)


def test_one_of_the_person_without(troubled: SmallBook) -> None:
    troubled.edit(TROUBLE_FILE, DOCTOR, "")
    troubled.edit(TROUBLE_FILE, "at_risk: person", "at_risk: «trouble-without-doctor»person")
    troubled.shows(findings=1)


def test_an_empty_list_is_none(troubled: SmallBook) -> None:
    troubled.edit(TROUBLE_FILE, DOCTOR, "doctor: []\n")
    troubled.edit(TROUBLE_FILE, "at_risk: person", "at_risk: «trouble-without-doctor»person")
    troubled.shows(findings=1)


@pytest.mark.parametrize("risk", ["hair", "bowl"])
def test_one_of_the_hair_or_the_bowl_needs_none(troubled: SmallBook, risk: str) -> None:
    troubled.edit(TROUBLE_FILE, DOCTOR, "")
    troubled.edit(TROUBLE_FILE, "at_risk: person", f"at_risk: {risk}")
    troubled.shows(findings=0)
