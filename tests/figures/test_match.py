"""One candidate for one head, against the same said with plain sets of words."""

import pickle

from hypothesis import given
from hypothesis import strategies as st

from bowlbook.figures.candidate import Candidate
from bowlbook.figures.head import DOMAINS, PLACES, USUAL, head_with, holds, may_hold, values_of
from bowlbook.figures.match import Ranking, match, verdict_on
from bowlbook.figures.ruling import Clause

AT_ONCE = {"condition", "history", "area", "wearing", "person", "reach"}
COLOUR: set[object] = {"virgin", "previously lightened", "previously coloured"}
"""Of a history, what recipes are written for: what else was done is for stops to judge."""

full = [2 ** len(DOMAINS[name]) - 1 for name in PLACES]
heads = st.tuples(*(st.sampled_from([0, 0, 1, min(3, most), most]) | st.integers(0, most) for most in full))


def sets(head: tuple[int, ...]) -> list[set[object]]:
    return [set(values_of(name, bits)) for name, bits in zip(PLACES, head, strict=True)]


@given(heads, heads)
def test_a_clause_holds_certainly_or_perhaps(when: tuple[int, ...], head: tuple[int, ...]) -> None:
    """Certainly: each facet it names was said, within it; of what is true at once one thing is enough.
    Perhaps: no facet that was said is outside it."""
    pairs = list(zip(sets(when), sets(head), strict=True))
    named = [(name, *pair) for name, pair in zip(PLACES, pairs, strict=True) if pair[0]]
    assert holds(when, head) is all(
        said & wanted if name in AT_ONCE else said and said <= wanted for name, wanted, said in named
    )
    assert may_hold(when, head) is all(not wanted or not said or said & wanted for wanted, said in pairs)


def clause(when: tuple[int, ...], because: str = "x") -> Clause:
    return Clause(when, because, "common practice")


@given(heads, heads, st.lists(heads, max_size=4), st.lists(heads, max_size=3))
def test_a_verdict(
    head: tuple[int, ...],
    suits: tuple[int, ...],
    refused: list[tuple[int, ...]],
    liked: list[tuple[int, ...]],
) -> None:
    excluded_by = tuple(clause(when, str(number)) for number, when in enumerate(refused))
    preferred_by = tuple(clause(when) for when in liked)
    verdict = verdict_on(Candidate("pair", "a", "A", suits, excluded_by, preferred_by), head)
    hits, parts, misses, unusual, tight = [], [], [], 0, 0
    for place, (asked, own, usual) in enumerate(zip(sets(head), sets(suits), sets(USUAL), strict=True)):
        if own and not asked:
            unusual += bool(usual) and not own & usual
        elif own and PLACES[place] == "history":
            if asked & COLOUR <= own and asked & own:
                hits.append(place)
                tight += max(0, 10 - len(own))
            elif not asked & COLOUR <= own:
                misses.append(place)
        elif own and asked <= own:
            hits.append(place)
            tight += max(0, 10 - len(own))
        elif own and asked & own:
            parts.append(place)
        elif own:
            misses.append(place)
    assert (verdict.hits, verdict.parts, verdict.misses) == (tuple(hits), tuple(parts), tuple(misses))
    assert (verdict.unusual, verdict.tightness) == (unusual, tight)
    assert verdict.excluded == tuple(each for each in excluded_by if holds(each.when, head))
    assert verdict.preferred == tuple(each for each in preferred_by if holds(each.when, head))
    assert verdict.suits is (not verdict.excluded and not misses and bool(hits or parts))
    open_ = [each for each in excluded_by if not holds(each.when, head) and may_hold(each.when, head)]
    certain = {each.when for each in verdict.excluded}
    once = {each.when: each for each in reversed(open_) if each.when not in certain}
    assert set(verdict.ask) == {each for when, each in once.items() if may_hold(when, suits)}
    assert verdict.rank() == (
        1 if verdict.excluded else 0,
        len(misses),
        unusual,
        -len(verdict.preferred),
        len(parts),
        -len(hits),
        -tight,
    )


def test_the_best_comes_first(candidates: list[Candidate]) -> None:
    head = head_with(natural_level=1 << 3, texture=1 << 2)
    answer = match(candidates, head)
    ranks = [each.rank() for each in answer.verdicts]
    assert ranks == sorted(ranks) and len(ranks) == len(candidates)
    alike = [each.candidate.name.casefold() for each in answer.verdicts if each.rank() == ranks[0]]
    assert alike == sorted(alike)


def test_without_an_answer(candidates: list[Candidate]) -> None:
    downwards = head_with(natural_level=1 << 8, target_level=1 << 1)
    assert match(candidates, downwards) == Ranking(None, ())


def test_equal_clauses_that_are_loaded_are_one() -> None:
    """Each recipe is stored with the clauses of all rules: in memory they are held once."""
    stored = pickle.dumps(clause(tuple(full), "It dries."))
    assert pickle.loads(stored) is pickle.loads(stored)
    assert pickle.dumps(pickle.loads(stored)) == stored
