"""Findings: what makes two of them one."""

from bowlbook.reading.finding import Finding, sorted_findings
from bowlbook.reading.place import Place

FOUND = Finding(Place("recipes/house.yml", 3, 1), "rule-shape", "It says nothing.", "Say one thing.")


def test_the_same_finding_twice_is_one() -> None:
    assert sorted_findings([FOUND, FOUND._replace()]) == [FOUND]


def test_findings_that_differ_in_anything_are_all_kept() -> None:
    others = [
        FOUND._replace(code="no-heads"),
        FOUND._replace(message="It says two things."),
        FOUND._replace(mend="Say one."),
        FOUND._replace(excerpt="rules:"),
        FOUND._replace(severity="warning"),
        FOUND._replace(place=Place("recipes/house.yml", 3, 2)),
    ]
    assert len(sorted_findings([FOUND, *others])) == len(others) + 1
