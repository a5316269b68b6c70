"""rule-contradicts-suits: a house rule against what a recipe says of itself."""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook

RULES = "rules:\n  - when: {when}\n    {what}\n    because: It shows.\n    standing: this house\n"


def rule(when: str, what: str) -> str:
    return RULES.replace("{when}", when).replace("{what}", what)


def test_foil_only_where_the_blend_and_the_technique_say_open_air(book: SmallBook) -> None:
    book.add(HOUSE_FILE, rule("«rule-contradicts-suits?»{texture: [medium]}", "require: {placement: [foil]}"))
    findings = [each for each in book.judged() if each.code == "rule-contradicts-suits"]
    assert [each.message.split('"')[:2] for each in findings] == [
        ["The blend ", "soft-clay"],
        ["The technique ", "painting"],
    ]
    assert set(book.found()) == set(book.expected())
    assert len(book.found()) == 2


def test_a_strength_that_is_excluded(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "[fine, medium]", "[medium]")
    book.edit(TECHNIQUE_FILE, "  texture: [fine, medium]\n", "")
    when = "«rule-contradicts-suits?»{texture: [medium], natural_level: 9-10}"
    book.add(HOUSE_FILE, rule(when, "exclude: {strength: [strong]}"))
    book.shows(findings=1)


@pytest.mark.parametrize(
    ("when", "what"),
    [
        ("{texture: [coarse]}", "require: {placement: [foil]}"),  # not whom they say they suit
        ("{texture: [fine], natural_level: 1-5}", "require: {placement: [foil]}"),
        ("{curl: [coily]}", "require: {placement: [foil]}"),  # nothing was said of curl
        ("{texture: [fine]}", "require: {placement: [open-air]}"),  # which it is
        ("{texture: [fine]}", "exclude: {strength: [gentle]}"),  # which it is not
        ("{texture: [fine]}", "prefer: {placement: [foil]}"),  # a wish keeps nothing away
    ],
)
def test_what_does_not_contradict(book: SmallBook, when: str, what: str) -> None:
    book.add(HOUSE_FILE, rule(when, what))
    book.shows(findings=0)


def test_a_corner_that_they_refuse_themselves(book: SmallBook) -> None:
    book.add(HOUSE_FILE, rule("{texture: [medium], natural_level: 9-10}", "require: {placement: [foil]}"))
    refusal = "not_for: [{when: {texture: [medium], natural_level: 8-10}, because: It shows.}]\n"
    book.add(BLEND_FILE, refusal)
    book.add(TECHNIQUE_FILE, refusal)
    book.shows(findings=0)
