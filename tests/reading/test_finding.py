"""Findings: what makes two of them one."""

from bowlbook.reading.finding import Finding, in_order
from bowlbook.reading.place import Place
from bowlbook.reading.source import Source

FOUND = Finding(Place("recipes/house.yml", 3, 1), "rule-shape", "It says nothing.", "Say one thing.")


def test_whom_a_finding_is_about_makes_no_other_finding_of_it() -> None:
    named = FOUND._replace(about=("blend", "soft-clay"))
    assert FOUND.about is None
    assert in_order([named, FOUND]) == [named] and in_order([FOUND, named]) == [FOUND]


def test_whom_a_finding_is_about_is_as_it_was_said() -> None:
    source = Source("recipes/house.yml", "title: A house\n", data={"title": "A house"})
    for about in (("blend", "soft-clay"), None):
        found = source.finding(("title",), "rule-shape", "It says nothing.", "Say one thing.", about=about)
        assert found.about == about
        assert found.excerpt == "title: A house"


def test_anything_else_does() -> None:
    others = [
        FOUND._replace(code="no-heads"),
        FOUND._replace(message="It says two things."),
        FOUND._replace(mend="Say one."),
        FOUND._replace(excerpt="rules:"),
        FOUND._replace(severity="warning"),
        FOUND._replace(place=Place("recipes/house.yml", 3, 2)),
    ]
    assert len(in_order([FOUND, *others])) == len(others) + 1
