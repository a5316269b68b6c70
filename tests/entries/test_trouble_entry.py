"""Troubles as they are read: what must be there, what is refused at its line, and where they come from."""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, TROUBLE, TROUBLE_FILE, SmallBook


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    book.write(TROUBLE_FILE, TROUBLE)
    return book


@pytest.mark.parametrize("key", ["signs", "now"])
def test_without_signs_or_without_anything_to_do_it_is_refused(book: SmallBook, key: str) -> None:
    line = next(line for line in TROUBLE.splitlines() if line.startswith(f"{key}:"))
    book.edit(TROUBLE_FILE, line, f"{key}: «empty-value»[]")
    book.shows(findings=1)


@pytest.mark.parametrize("key", ["signs", "now", "advice_from", "at_risk"])
def test_what_must_be_said(book: SmallBook, key: str) -> None:
    line = next(line for line in TROUBLE.splitlines(keepends=True) if line.startswith(f"{key}:"))
    book.edit(TROUBLE_FILE, line, "")
    book.edit(TROUBLE_FILE, "name: Burning", "«missing-key»name: Burning")
    book.shows(findings=1)


def test_another_risk_is_refused_with_the_nearest_word(book: SmallBook) -> None:
    book.edit(TROUBLE_FILE, "at_risk: person", "at_risk: «unknown-word»persons")
    book.shows(findings=1)


def test_what_it_comes_from_must_be_in_the_book(book: SmallBook) -> None:
    book.write(
        TROUBLE_FILE,
        TROUBLE
        + "comes_from:\n"
        + "  placement: [open-air, «unknown-word»in foil]\n"
        + "  techniques: [painting, «unknown-id»paintings]\n"
        + "  blends: [«unknown-id»painting]\n"
        + "  products: [foil, «unknown-id»foils]\n",
    )
    book.shows(findings=4)


def test_a_blend_that_only_goes_wrong_is_used_by_nobody(book: SmallBook) -> None:
    text = book.texts[BLEND_FILE].replace("Soft clay three to one", "«unused-entry?»Another")
    text = text[: text.index("suits:")] + "suits: {}\n" + text[text.index("reviewed:") :]
    book.write("blends/another.yml", text)
    book.write(TROUBLE_FILE, TROUBLE + "comes_from: {blends: [another]}\n")
    book.shows(findings=1)


@pytest.mark.parametrize("number", ["112", "911", '"+49112"'])
def test_an_emergency_number_is_read_as_it_is_dialled(book: SmallBook, number: str) -> None:
    book.add(HOUSE_FILE, f"emergency_numbers:\n  - {{jurisdiction: Here, number: {number}}}\n")
    book.shows(findings=0)
    read = book.read()
    assert [each.number for each in read.house.emergency_numbers] == [number.strip('"')]


@pytest.mark.parametrize("number", ["1", "1-1-2", "call us", "1234567890123456"])
def test_what_cannot_be_dialled_is_refused(book: SmallBook, number: str) -> None:
    book.add(HOUSE_FILE, f"emergency_numbers:\n  - {{jurisdiction: Here, number: «bad-amount»{number}}}\n")
    book.shows(findings=1)
