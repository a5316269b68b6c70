"""rule-shape: a house rule says exactly one thing, and names the source that it claims."""

import pytest

from checks.small_book import HOUSE_FILE, SmallBook

GENTLE = "exclude: {strength: [gentle]}"
STOP = "stop: Not in this house."
SOURCE = "source: An invented text"


def with_rule(book: SmallBook, said: str, mark: str = "") -> None:
    book.add(HOUSE_FILE, f"rules:\n  - {mark}{{when: {{curl: [coily]}}, because: It shows., {said}}}\n")


@pytest.mark.parametrize(
    "said", [f"{GENTLE}, require: {{placement: [open-air]}}, standing: this house", "standing: this house"]
)
def test_two_things_or_nothing(book: SmallBook, said: str) -> None:
    with_rule(book, said, "«rule-shape»")
    book.shows(findings=1)


@pytest.mark.parametrize(
    "said",
    [
        f"{GENTLE}, standing: «rule-shape»published source",
        f"{GENTLE}, standing: «rule-shape»common practice, {SOURCE}",
        f"{STOP}, standing: «rule-shape»published source, {SOURCE}",  # neither place nor day
        f"{STOP}, standing: «rule-shape»published source, {SOURCE}, jurisdiction: Nowhere",
        f"{STOP}, standing: «rule-shape»published source, {SOURCE}, since: 2020-01-01",
        f"{STOP}, standing: «rule-shape»usual",  # no house writes a usual stop
    ],
)
def test_a_source_that_is_not_named_or_not_published(book: SmallBook, said: str) -> None:
    with_rule(book, said)
    book.shows(findings=1)


@pytest.mark.parametrize(
    "said",
    [
        "prefer: {strength: [gentle]}, standing: common practice",
        f"{GENTLE}, standing: published source, {SOURCE}",
        f"{STOP}, standing: this house",
        f"{STOP}, standing: published source, {SOURCE}, jurisdiction: Nowhere, since: 2020-01-01",
        "visits: {levels: 3, weeks: 8}, standing: common practice",
        "test_first: Ask., standing: common practice",
        "care: Look., standing: common practice",
    ],
)
def test_what_passes(book: SmallBook, said: str) -> None:
    with_rule(book, said)
    book.shows(findings=0)
