"""Findings: what makes two of them one."""

from dataclasses import replace

from generator.reading.finding import Finding, in_order
from generator.reading.place import Place

FOUND = Finding(Place("recipes/house.yml", 3, 1), "rule-shape", "It says nothing.", "Say one thing.")


def test_whom_a_finding_is_about_makes_no_other_finding_of_it() -> None:
    named = replace(FOUND, about=("blend", "soft-clay"))
    assert FOUND.about is None and named.about == ("blend", "soft-clay")
    assert named == FOUND and repr(named) == repr(FOUND)
    assert in_order([named, FOUND]) == [FOUND]


def test_anything_else_does() -> None:
    others = [
        replace(FOUND, code="no-heads"),
        replace(FOUND, message="It says two things."),
        replace(FOUND, mend="Say one."),
        replace(FOUND, excerpt="rules:"),
        replace(FOUND, severity="warning"),
        replace(FOUND, place=Place("recipes/house.yml", 3, 2)),
    ]
    assert len(in_order([FOUND, *others])) == len(others) + 1
