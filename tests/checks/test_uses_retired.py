"""uses-retired: whoever still names a retired entry; what a retired entry itself used is not looked at."""

import pytest

from checks.small_book import (
    BLEND,
    BLEND_FILE,
    CLASS_FILE,
    POWDER_FILE,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

SPARE = BLEND.replace("Soft clay three to one", "Spare clay")
GONE = "retired: {on: 2026-10-02, because: It grabbed at the ends., instead: spare}\n"


def test_a_product(book: SmallBook) -> None:
    book.add(POWDER_FILE, "retired: {on: 2026-10-02, because: Its maker has stopped.}\n")
    book.edit(BLEND_FILE, "product: powder", "product: «uses-retired?»powder")
    [found] = book.shows(findings=1)
    assert found.mend == "Name another here."


def test_a_blend_in_a_technique_and_a_situation(book: SmallBook) -> None:
    book.write("blends/spare.yml", SPARE)
    book.add(BLEND_FILE, GONE)
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «uses-retired?»soft-clay")
    book.edit(SITUATION_FILE, "blend: soft-clay", "blend: «uses-retired?»soft-clay")
    found = book.shows(findings=2)
    message, mend = {(each.message, each.mend) for each in found}.pop()
    assert message == '"soft-clay" was retired on 2026-10-02: It grabbed at the ends.'
    assert mend == 'Name "spare" here, or another.'


def test_an_instead_that_leads_to_one(book: SmallBook) -> None:
    book.write("blends/spare.yml", SPARE + GONE.replace("spare", "soft-clay"))
    book.write(
        "blends/third.yml",
        BLEND.replace("Soft clay", "Third clay")
        + "not_for: [{when: {texture: [coarse]}, because: It shows., instead: «uses-retired?»spare}]\n",
    )
    book.write(
        "blends/fourth.yml",
        BLEND.replace("Soft clay", "Fourth clay")
        + "retired: {on: 2026-10-02, because: Nobody mixed it., instead: «uses-retired?»spare}\n",
    )
    book.shows(findings=2)


def test_what_is_kept_away_from_may_be_retired(book: SmallBook) -> None:
    book.write("blends/spare.yml", SPARE + GONE.replace("spare", "soft-clay"))
    book.add(SITUATION_FILE, "avoid: [{blend: spare, because: It is too much.}]\n")
    book.shows(findings=0)


def test_a_retired_entry_may_use_what_is_retired_with_it(book: SmallBook) -> None:
    """And nothing is asked of it any more: no review, no other use."""
    retired = "retired: {on: 2026-10-02, because: Its maker has stopped.}\n"
    for path in (POWDER_FILE, BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE):
        book.add(path, retired)
    book.add(BLEND_FILE, "reviewed: {on: 2020-10-02, by: Ines}\n")
    assert {each.code for each in book.judged()} == {"unused-entry"}  # clay, developer and foil


@pytest.mark.parametrize("line", ["{on: 2026-10-02}", "{because: Why.}", "2026-10-02"])
def test_a_day_and_a_reason_are_asked_for(book: SmallBook, line: str) -> None:
    book.add(SITUATION_FILE, f"retired: {line}\n")
    assert {each.severity for each in book.judged()} == {"error"}


def test_a_day_still_to_come(book: SmallBook) -> None:
    book.add(SITUATION_FILE, "retired: {on: «future-date?»2027-10-02, because: Nobody asks for it.}\n")
    book.shows(findings=1)


def test_of_another_kind(book: SmallBook) -> None:
    book.add(SITUATION_FILE, "retired: {on: 2026-10-02, because: Why., instead: «unknown-id»soft-clay}\n")
    book.shows(findings=1)
