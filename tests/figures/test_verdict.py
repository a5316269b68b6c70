"""The verdict on a head: the heads of ``heads.yml`` and ``odd_heads.yml``, and what must be true of any head.

A stop wins over an answer, and whatever more is known of hair and person never makes the verdict less strict.
Two things lift an assumption of the worst and are therefore no part of that rule: the weeks since a
treatment, which count as none while nobody knows them, and the area, since new growth was never coloured or
lightened.
"""

import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.yaml_file import yaml_file

from bowlbook.book.book import Book
from bowlbook.figures.head import DOMAINS, HISTORY, PLACES, Head, head_with
from bowlbook.figures.match import Verdict, match
from bowlbook.figures.use import use_of
from bowlbook.figures.verdict import (
    NOT_TODAY,
    TONE_ONLY,
    VERDICTS,
    Consultation,
    Practice,
    consult,
    practice_of,
)
from bowlbook.figures.visits import house_visit
from bowlbook.wording.verdict import before_of
from figures.said import head_from

CASES = [
    pytest.param(
        each,
        id=each["name"],
        marks=pytest.mark.xfail(strict=True, reason=each["undecided"]) if "undecided" in each else (),
    )
    for name in ("heads.yml", "odd_heads.yml")
    for each in yaml_file(Path(__file__).parent / name)
]


class Short(Practice):
    """A practice that a failing property prints in one word."""

    def __repr__(self) -> str:
        return "practice"


@pytest.fixture(scope="module")
def practice(demo_book) -> Practice:
    made = practice_of(demo_book)
    return Short(made.visit, made.stops, made.lightening, made.toning, made.volumes)


def answers_of(practice: Practice, found: Consultation) -> list[tuple[Verdict, Head]]:
    """Every answer with the head as it was judged: recipes that lighten, then those that tone."""
    answers = []
    for head, index in ((found.lightening, practice.lightening), (found.toning, practice.toning)):
        if head is not None:
            ranking = match(list(index.candidates), head)
            assert ranking.head is not None
            answers += [(each, ranking.head) for each in ranking.verdicts if each.suits]
    return answers


def breaks(word: str, book: Book, answer: Verdict, head: Head) -> bool:
    """Whether an answer is what a judged head must never get."""
    use = use_of(book, answer.candidate, head)
    if word.startswith("volume over"):
        return use.developers[0].volume > Fraction(word.split()[-1])
    if word in ("lightening", "toning"):
        return use.tones is (word == "toning")
    return word in (*use.placements, answer.candidate.id, answer.candidate.within)


@pytest.mark.parametrize("case", CASES)
def test_a_judged_head(practice: Practice, demo_book, case: dict[str, Any]) -> None:
    head = head_from(case["head"])
    found = consult(practice, head)
    allowed = case["verdict"] if isinstance(case["verdict"], list) else [case["verdict"]]
    assert found.verdict in allowed
    answers = answers_of(practice, found)
    for word in case.get("never", ()):
        wrong = [each.candidate for each, judged in answers if breaks(word, demo_book, each, judged)]
        assert not wrong, word
    must = case.get("must", {})
    ids = {entry_id for each, _ in answers for entry_id in (each.candidate.id, each.candidate.within)}
    assert set(must.get("answers", ())) <= ids
    assert "any_of" not in must or ids & set(must["any_of"])
    said = [f"{each.do} {each.because}" for each in before_of(found)]
    for words in must.get("before", ()):
        assert any(re.search(words, each, re.IGNORECASE) for each in said), words
    assert len(found.visits) >= must.get("visits", 0)


def values(name: str) -> st.SearchStrategy[int]:
    """Mostly unsaid, else one value; of a history and a person now and then two."""
    one = st.integers(0, len(DOMAINS[name]) - 1).map(lambda place: 1 << place)
    some = st.tuples(one, one).map(lambda two: two[0] | two[1]) if name in ("history", "person") else one
    return st.just(0) | one | some


WISH = ("target_level", "lift", "tone", "placement", "volume", "heat", "wish")
ASSUMED_WORST = ("weeks", "area")
FACTS = tuple(name for name in PLACES if name not in (*WISH, *ASSUMED_WORST, "reach", "now", "natural_level"))
facts = st.sampled_from([(name, 1 << place) for name in FACTS for place in range(len(DOMAINS[name]))])
heads = st.fixed_dictionaries({name: values(name) for name in PLACES if name != "reach"})


@settings(max_examples=60)
@given(heads)
def test_no_answer_with_a_stop_in_force(practice: Practice, said: dict[str, int]) -> None:
    found = consult(practice, head_with(**said))
    stopped = any(each.effect == "stop" for each in found.stops)
    assert stopped is (found.verdict == NOT_TODAY)
    answers = answers_of(practice, found)
    if stopped:
        assert answers == []
    if found.verdict == TONE_ONLY or not found.lightens:
        assert all(each.candidate.tones for each, _ in answers)


@settings(max_examples=60)
@given(heads)
def test_refusals_win_over_preferences(practice: Practice, said: dict[str, int]) -> None:
    found = consult(practice, head_with(**said))
    for head, index in ((found.lightening, practice.lightening), (found.toning, practice.toning)):
        if head is not None:
            verdicts = match(list(index.candidates), head).verdicts
            refused = [bool(each.excluded) for each in verdicts]
            assert refused == sorted(refused)  # none of them before anything that is not refused
            assert not any(each.suits for each in verdicts if each.excluded)


def lightening_in(answers: list[tuple[Verdict, Head]]) -> set[int]:
    return {id(each.candidate) for each, _ in answers if not each.candidate.tones}


@settings(max_examples=60)
@given(heads, facts)
def test_more_known_is_never_less_strict(
    practice: Practice, said: dict[str, int], fact: tuple[str, int]
) -> None:
    """A facet that was not said is said; to a history or a person one thing more is added."""
    name, more = fact
    before = said[name] if name in ("history", "person") else 0
    less = consult(practice, head_with(**{**said, name: before}))
    then = consult(practice, head_with(**{**said, name: before | more}))
    if then.lightens != less.lightens:
        return  # another wish: only a tone, for hair that was lightened
    assert VERDICTS.index(then.verdict) >= VERDICTS.index(less.verdict)
    if said["natural_level"] and not (less.visits or then.visits):  # of the same wish for today
        assert lightening_in(answers_of(practice, then)) <= lightening_in(answers_of(practice, less))


def test_a_plan_reaches_the_wish_within_what_each_visit_gives(practice: Practice) -> None:
    """Every level, every lift, hair that takes five levels and hair that takes fewer."""
    for history in (1, 1 << DOMAINS["history"].index("previously coloured")):
        for curl in (1, 1 << DOMAINS["curl"].index("coily")):
            for level in range(1, 10):
                for target in range(level + 1, 11):
                    head = head_with(
                        natural_level=1 << level - 1, target_level=1 << target - 1, history=history, curl=curl
                    )
                    found = consult(practice, head)
                    lifts = [each.lift for each in found.visits]
                    assert bool(lifts) is (target - level > found.limit.levels)
                    if lifts:
                        assert sum(lifts) == target - level and found.visits[-1].to == target
                        assert lifts[0] <= found.limit.levels and max(lifts[1:]) <= 2
                        assert lifts == sorted(lifts, reverse=True) and min(lifts) >= 1
                        assert found.visits[0].weeks_later == 0
                        assert all(each.weeks_later >= 6 for each in found.visits[1:])


def test_six_levels_on_coarse_level_3(practice: Practice) -> None:
    """Five levels in a day at the most, two on hair that was lightened before: four, and then two."""
    found = consult(practice, head_from({"level": 3, "to": 9, "texture": "coarse", "history": ["virgin"]}))
    assert [(each.to, each.lift, each.weeks_later) for each in found.visits] == [(7, 4, 0), (9, 2, 8)]


def test_weeks_that_nobody_knows_count_as_none(practice: Practice) -> None:
    said = {"level": 4, "lift": 2, "history": ["relaxed"], "texture": "medium"}
    assert consult(practice, head_from(said)).verdict == NOT_TODAY
    assert consult(practice, head_from({**said, "weeks": 7})).verdict == NOT_TODAY
    assert consult(practice, head_from({**said, "weeks": 8})).verdict == "test first"


def test_new_growth_has_no_history_of_colour(practice: Practice) -> None:
    said = {"level": 6, "lift": 3, "history": ["previously lightened"], "tone": "cool"}
    growth = consult(practice, head_from({**said, "area": "scalp regrowth"}))
    assert growth.verdict == "with care"
    assert consult(practice, head_from(said)).verdict == NOT_TODAY  # the lengths, and nobody knows since when
    assert growth.lightening is not None and growth.lightening[HISTORY]


def test_a_house_may_allow_less_in_a_visit_and_not_more(practice: Practice, demo_book) -> None:
    from dataclasses import replace

    def most(levels: int, weeks: int) -> tuple[int, int]:
        house = replace(demo_book.house, lift_in_a_visit=levels, weeks_between_visits=weeks)
        limit = consult(practice._replace(visit=house_visit(house)), head_with()).limit
        return limit.levels, limit.weeks

    assert most(3, 12) == (3, 12)
    assert most(9, 1) == (5, 6)
