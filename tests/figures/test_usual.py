"""The usual stops: each holds for the head it names, whatever the house says, and says on whose word.

Outside: Regulation (EC) No 1223/2009, Annex III, label warnings for oxidative hair colours (persons under 16;
sensitive, irritated or damaged scalp; any earlier reaction to colouring or to a black henna tattoo), as read
on a national authority's page. They cover colours with the listed dyes; lighteners are held to the same by
common practice. Persulfates as sensitisers: ANSES, 12 June 2019; NICNAS, 2001. The rest: common practice, no
published source.
"""

from dataclasses import replace

import pytest

from bowlbook.book.book import Book
from bowlbook.entries.usual import usual
from bowlbook.figures.head import head_of
from bowlbook.figures.stop import STOP, TEST
from bowlbook.figures.verdict import VERDICTS, Practice, consult, practice_of

RULES = [each for each in usual().rules if each.effect in (STOP, TEST)]


def test_each_says_why_and_on_whose_word() -> None:
    for each in usual().rules:
        assert each.standing == "usual" and each.source and each.because
        said = [
            name
            for name in ("exclude", "require", "stop", "test_first", "care", "visits")
            if getattr(each, name)
        ]
        assert len(said) == 1
        assert (
            "common practice, no published source" in each.source
            or "European Union" in each.source
            or ("ANSES" in each.source)
        )


@pytest.fixture(scope="module")
def loose(demo_book: Book) -> Practice:
    """A house without a rule, that would allow nine levels in a visit and sixty volume on a scalp."""
    house = replace(
        demo_book.house, rules=(), lift_in_a_visit=9, weeks_between_visits=1, on_scalp_developer_limit=60
    )
    return practice_of(replace(demo_book, house=house))


@pytest.mark.parametrize("rule", RULES, ids=[str(n) for n in range(len(RULES))])
def test_each_holds_in_a_house_that_says_nothing(loose: Practice, rule) -> None:
    found = consult(loose, head_of(rule.when))
    assert (rule.stop or rule.test_first) in [each.do for each in found.stops]
    least = "not today" if rule.stop else "test first"
    assert VERDICTS.index(found.verdict) >= VERDICTS.index(least)


def test_no_stop_promises_that_something_is_safe() -> None:
    for each in usual().rules:
        text = " ".join(filter(None, (each.stop, each.test_first, each.care, each.because))).casefold()
        assert " safe" not in text and "harmless" not in text


@pytest.mark.parametrize(
    ("person", "words"),
    [
        ("under 16", "not intended for persons under 16"),
        ("sore scalp", "Labels of colours name it too"),
        ("reaction to colour", "black henna tattoo"),
    ],
)
def test_what_labels_of_oxidative_colours_say(person: str, words: str) -> None:
    """Annex III is cited for colours; for lighteners the same text says that it is common practice."""
    (rule,) = [each for each in usual().rules if each.stop and each.when.person == (person,)]
    assert words in rule.because + (rule.stop or "")
    assert "1223/2009, Annex III" in (rule.source or "") and "common practice" in (rule.source or "")


def test_persulfates_stop_for_good() -> None:
    (rule,) = [each for each in usual().rules if each.stop and each.when.person == ("reaction to lightener",)]
    assert (
        "Persulfates" in rule.because and "ANSES" in (rule.source or "") and "NICNAS" in (rule.source or "")
    )
