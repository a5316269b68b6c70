"""rule-shape: a house rule says exactly one thing, and names the source that it claims."""

import pytest

from checks.small_book import HOUSE_FILE, SmallBook

WHEN = "when: {curl: [coily]}, because: It shows., "
GENTLE = "{strength: [gentle]}"


def with_rule(book: SmallBook, text: str) -> None:
    book.add(HOUSE_FILE, f"rules:\n  - {text}\n")


@pytest.mark.parametrize(
    "said",
    [
        f"exclude: {GENTLE}, prefer: {{pigment: [green]}}, ",
        f"exclude: {GENTLE}, require: {{placement: [open-air]}}, ",
        "",
    ],
)
def test_two_things_or_nothing(book: SmallBook, said: str) -> None:
    with_rule(book, f"«rule-shape»{{{WHEN}{said}standing: this house}}")
    book.shows(findings=1)


def test_a_published_source_that_is_not_named(book: SmallBook) -> None:
    with_rule(book, f"{{{WHEN}exclude: {GENTLE}, standing: «rule-shape»published source}}")
    book.shows(findings=1)


def test_a_source_for_what_is_not_published(book: SmallBook) -> None:
    with_rule(book, f"{{{WHEN}exclude: {GENTLE}, standing: «rule-shape»common practice, source: Hearsay}}")
    book.shows(findings=1)


@pytest.mark.parametrize("word", ["exclude", "prefer"])
def test_one_thing_passes(book: SmallBook, word: str) -> None:
    with_rule(book, f"{{{WHEN}{word}: {GENTLE}, standing: common practice}}")
    book.shows(findings=0)


def test_a_named_source_passes(book: SmallBook) -> None:
    with_rule(book, f"{{{WHEN}exclude: {GENTLE}, standing: published source, source: An invented text}}")
    book.shows(findings=0)


STOP = "stop: Not in this house., "


def test_a_stop_of_the_house_passes(book: SmallBook) -> None:
    with_rule(book, f"{{{WHEN}{STOP}standing: this house}}")
    book.shows(findings=0)


@pytest.mark.parametrize("said", ["", "jurisdiction: Nowhere, ", "since: 2020-01-01, "])
def test_a_published_stop_without_place_or_day(book: SmallBook, said: str) -> None:
    source = "source: An invented text"
    with_rule(book, f"{{{WHEN}{STOP}{said}standing: «rule-shape»published source, {source}}}")
    book.shows(findings=1)


def test_a_published_stop_with_place_and_day_passes(book: SmallBook) -> None:
    where = "jurisdiction: Nowhere, since: 2020-01-01, source: An invented text"
    with_rule(book, f"{{{WHEN}{STOP}standing: published source, {where}}}")
    book.shows(findings=0)


def test_no_house_writes_a_usual_stop(book: SmallBook) -> None:
    with_rule(book, f"{{{WHEN}{STOP}standing: «rule-shape»usual}}")
    book.shows(findings=1)


@pytest.mark.parametrize("said", ["visits: {levels: 3, weeks: 8}, ", "test_first: Ask., ", "care: Look., "])
def test_tests_care_and_visits_pass(book: SmallBook, said: str) -> None:
    with_rule(book, f"{{{WHEN}{said}standing: common practice}}")
    book.shows(findings=0)
