"""The shortlist against verdicts on every candidate, sorted; tallies against plain numbers."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from bowlbook.figures.candidate import CANDIDATE_KINDS, Candidate
from bowlbook.figures.head import DOMAINS, PLACES, assumed, completed, holds
from bowlbook.figures.head_sets import head_sets
from bowlbook.figures.match import Verdict, verdict_on
from bowlbook.figures.shortlist import Few, index_of, shortlist
from bowlbook.figures.tally import by_number, mask_of, masks_of, places_of, tally_of, tally_sum
from figures.test_match import clause, heads


@st.composite
def books(draw: st.DrawFn) -> list[Candidate]:
    """Candidates that share clauses and sets, so that many rank alike."""
    shared = draw(st.lists(heads, min_size=1, max_size=3))
    sets = st.sampled_from(shared) | heads
    some = st.lists(sets.map(clause), max_size=4).map(tuple)
    drawn = draw(st.lists(st.tuples(st.sampled_from(CANDIDATE_KINDS), sets, some, some), max_size=25))
    return [Candidate(kind, str(n), "A", *rest) for n, (kind, *rest) in enumerate(drawn)]


def by_hand(candidates: list[Candidate], head: tuple[int, ...], kind: str) -> tuple[list[Verdict], ...]:
    """All verdicts on one kind in their order; those that suit; the refusals, nearest first."""
    verdicts = [verdict_on(each, head) for each in candidates if each.kind == kind]
    ranked = sorted(verdicts, key=Verdict.rank)
    refused = [each for each in ranked if each.excluded or each.misses]
    refused.sort(key=lambda each: (len(each.misses), not each.excluded))
    return ranked, [each for each in ranked if each.suits], refused


@given(books(), heads, st.integers(0, 30))
def test_the_first_are_those_of_all_verdicts_sorted(
    candidates: list[Candidate], head: tuple[int, ...], most: int
) -> None:
    found = shortlist(index_of(candidates), head)
    whole = completed(head)
    assert (found is None) == (whole is None)
    if found is None or whole is None:
        return
    whole = assumed(whole)
    assert found.head == whole
    for kind in CANDIDATE_KINDS:
        ranked, suits, refused = by_hand(candidates, whole, kind)
        assert found.suiting(kind, most) == Few(tuple(suits[:most]), max(0, len(suits) - most))
        assert found.refused(kind, most) == Few(tuple(refused[:most]), max(0, len(refused) - most))
        assert found.nearest(kind) == (ranked[0] if ranked else None)


def test_every_single_value_asked_of_the_demo_book(candidates: list[Candidate]) -> None:
    index = index_of(candidates)
    for place, facet in enumerate(PLACES):
        for value in range(len(DOMAINS[facet])):
            head = tuple(1 << value if n == place else 0 for n in range(len(PLACES)))
            found = shortlist(index, head)
            assert found is not None
            head = assumed(head)
            for kind in CANDIDATE_KINDS:
                _, suits, refused = by_hand(candidates, head, kind)
                assert found.suiting(kind, 1000) == Few(tuple(suits), 0)
                assert found.refused(kind, 1000) == Few(tuple(refused), 0)


@given(st.lists(heads, max_size=20), heads)
def test_sets_that_a_head_lies_in(sets: list[tuple[int, ...]], head: tuple[int, ...]) -> None:
    found = head_sets(sets)
    assert list(places_of(found.certain(head))) == [n for n, when in enumerate(sets) if holds(when, head)]
    for place, asked in enumerate(head):
        met = [n for n, own in enumerate(sets) if own[place] & asked]
        assert list(places_of(found.with_any(place, asked))) == met
        if asked:
            whole = [n for n, own in enumerate(sets) if own[place] & asked == asked]
            assert list(places_of(found.with_all(place, asked))) == whole


numbers = st.lists(st.tuples(st.integers(0, 200), st.integers(0, 200)), max_size=40)


def tally_by_digits(values: list[int]) -> list[int]:
    return [mask_of((n for n, value in enumerate(values) if value >> k & 1), len(values)) for k in range(8)]


@given(numbers, st.integers(0, 2**40))
def test_tallies_add_and_sort_like_numbers(pairs: list[tuple[int, int]], members: int) -> None:
    one, other = [each[0] for each in pairs], [each[1] for each in pairs]
    total = tally_sum(tally_by_digits(one), tally_by_digits(other))
    found = [sum((digit >> n & 1) << k for k, digit in enumerate(total)) for n in range(len(pairs))]
    assert found == [sum(pair) for pair in pairs]
    members &= (1 << len(pairs)) - 1
    chosen = [n for n in range(len(pairs)) if members >> n & 1]
    assert list(places_of(members)) == chosen
    assert list(by_number(members, total[::-1])) == sorted(chosen, key=lambda n: found[n])


@given(st.lists(st.sets(st.integers(0, 20)), max_size=9))
def test_masks_are_counted(sets: list[set[int]]) -> None:
    tally = tally_of(mask_of(each, 21) for each in sets)
    often = Counter(n for each in sets for n in each)
    assert [sum((digit >> n & 1) << k for k, digit in enumerate(tally)) for n in range(21)] == [
        often[n] for n in range(21)
    ]


@given(st.lists(st.sampled_from("abc"), max_size=30))
def test_members_by_label(labels: list[str]) -> None:
    found = masks_of(labels)
    assert list(found) == list(dict.fromkeys(labels))
    for label, mask in found.items():
        assert list(places_of(mask)) == [n for n, each in enumerate(labels) if each == label]
