"""The situation space: the quick reckoning by bit sets against asking every corner; what a recipe adds."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from bowlbook.figures.candidate import Candidate, candidates_of
from bowlbook.figures.coverage import CORNERS, CORNERS_WITH, corners_of, coverage_of, gaps_of
from bowlbook.figures.head import DOMAINS, PLACES, assumed, completed, head_with, values_of
from bowlbook.figures.match import Verdict, verdict_on
from bowlbook.figures.ruling import Clause
from bowlbook.figures.shortlist import index_of


def test_corners_are_the_same_as_asking_each(candidates: list[Candidate]) -> None:
    """Brute force: every pair of the demo book, every seventh corner of each kind."""
    pairs = [each for each in candidates if each.kind == "pair"]
    sample = range(0, len(CORNERS), 7)
    heads = [assumed(CORNERS[place].head(), one_head=False) for place in sample]
    assert len(CORNERS) == 45 * 3 * 3 * 4 and len(pairs) > 12
    for pair in pairs:
        bits = corners_of(pair)
        asked = [verdict_on(pair, head).suits for head in heads]
        assert [bool(bits >> place & 1) for place in sample] == asked, pair.name
        assert bits, f"{pair.name} serves no corner at all"


def test_states_add_up(candidates: list[Candidate]) -> None:
    coverage = coverage_of(candidates)
    counts = [
        sum(coverage.state(n) == state for n in range(len(CORNERS))) for state in ("served", "thin", "empty")
    ]
    assert sum(counts) == len(CORNERS)
    pairs = [each for each in candidates if each.kind == "pair"]
    for place in range(0, len(CORNERS), 37):
        serving = sum(corners_of(each) >> place & 1 for each in pairs)
        assert coverage.state(place) == ("empty" if serving == 0 else "thin" if serving == 1 else "served")


def test_gaps_are_gathered_by_what_stops_the_nearest_the_largest_first(candidates: list[Candidate]) -> None:
    pairs = [each for each in candidates if each.kind == "pair"]
    coverage = coverage_of(candidates)
    gaps = gaps_of(index_of(candidates), coverage)
    sizes = [len(gap.corners) for gap in gaps]
    assert sizes == sorted(sizes, reverse=True) and len(sizes) > 3
    assert sum(sizes) == coverage.empty.bit_count()
    facts = set()
    for gap in gaps:
        nearest = [
            min((verdict_on(each, head) for each in pairs), key=Verdict.rank)
            for head in (assumed(corner.head(), one_head=False) for corner in gap.corners)
        ]
        assert not any(each.suits for each in nearest)
        stops = {(each.candidate.id, each.candidate.within, each.excluded or each.misses) for each in nearest}
        assert len(stops) == 1 and not stops & facts
        facts |= stops
        assert gap.nearest == nearest[0]


def test_removing_a_recipe_changes_the_coverage_and_its_page(demo_book) -> None:
    from bowlbook.pages.coverage_page import coverage_pages

    techniques = {key: each for key, each in demo_book.techniques.items() if key != "triangle-in-two-foils"}
    fewer = replace(demo_book, techniques=techniques)
    before, after = (coverage_of(candidates_of(book)) for book in (demo_book, fewer))
    assert before.empty & ~after.empty == 0  # nothing is served better by less
    assert after.served & ~before.served == 0
    assert after.served.bit_count() < before.served.bit_count()
    pages = [
        [page.body for page in coverage_pages(book, index_of(candidates_of(book)))]
        for book in (demo_book, fewer)
    ]
    assert [len(each) for each in pages] == [2, 2]
    assert all(before != after for before, after in zip(*pages, strict=True))


def test_a_book_without_techniques_has_gaps_only(demo_book) -> None:
    candidates = candidates_of(replace(demo_book, techniques={}))
    coverage = coverage_of(candidates)
    assert coverage.empty.bit_count() == len(CORNERS)
    assert [gap.nearest for gap in gaps_of(index_of(candidates), coverage)] == [None]


def without_now(head: tuple[int, ...]) -> tuple[int, ...]:
    """Only the natural level says where the lift starts from."""
    return tuple(0 if name == "now" else bits for name, bits in zip(PLACES, head, strict=True))


sets = st.tuples(*(st.integers(0, 2 ** len(DOMAINS[name]) - 1) for name in PLACES))


@given(sets.map(without_now))
def test_levels_and_lift_are_worked_out_from_each_other(head: tuple[int, ...]) -> None:
    """By trying every head: level wanted = natural level + levels of lift, level 10 at most."""
    natural, target, lift = (values_of(name, bits) for name, bits in zip(PLACES[:3], head, strict=False))
    found = completed(head)
    if bool(natural) + bool(target) + bool(lift) != 2:
        assert found == head
        return
    possible = {
        (n, n + step, step)
        for n in (natural or range(1, 11))
        for step in (lift or range(1, 10))
        if n + step <= 10 and (not target or n + step in target)
    }
    if not possible:
        assert found is None
        return
    assert found is not None
    missing = 0 if not natural else 1 if not target else 2
    assert set(values_of(PLACES[missing], found[missing])) == {each[missing] for each in possible}
    assert found[3:] == head[3:]


SETS = [2 ** len(DOMAINS[name]) - 1 for name in PLACES]
heads = st.tuples(*(st.sampled_from([0, 0, 0, most, 1]) | st.integers(0, most) for most in SETS))


@given(heads, st.lists(heads, max_size=3))
def test_corners_of_any_recipe_are_the_same_as_asking_each(
    suits: tuple[int, ...], refused: list[tuple[int, ...]]
) -> None:
    """Clauses that hold for whole rows of corners, and clauses about facets that no corner says."""
    clauses = tuple(Clause(when, "x", "common practice") for when in refused)
    recipe = Candidate("pair", "a", "A", suits, clauses, (), "b")
    bits = corners_of(recipe)
    for place in range(0, len(CORNERS), 97):
        head = assumed(CORNERS[place].head(), one_head=False)
        assert bool(bits >> place & 1) is verdict_on(recipe, head).suits


def test_a_clause_about_one_facet_takes_its_corners_and_no_other() -> None:
    fine, lightened, anything = head_with(texture=1), head_with(history=2), head_with()
    level = head_with(natural_level=(1 << 10) - 1)  # what is for any head is no answer

    def corners(*when: tuple[int, ...]) -> int:
        clauses = tuple(Clause(each, "x", "common practice") for each in when)
        return corners_of(Candidate("pair", "a", "A", level, clauses, (), "b"))

    every = (1 << len(CORNERS)) - 1
    assert corners() == every
    assert corners(lightened) == every  # a corner says nothing of the hair's history
    assert corners(fine) == every & ~CORNERS_WITH["texture"][0]
    assert corners(anything) == 0  # a clause without a head holds for all


NAMED = {"reach": "area"}


def test_corners_are_counted_as_their_facets_say() -> None:
    """Against going through them one by one; a target level is the natural level and the levels of lift."""
    for facet, sets in CORNERS_WITH.items():
        own = [
            each.natural_level + each.lift
            if facet == "target_level"
            else getattr(each, NAMED.get(facet, facet))
            for each in CORNERS
        ]
        for value, bits in zip(DOMAINS[facet], sets, strict=True):
            assert [bits >> place & 1 for place in range(len(CORNERS))] == [each == value for each in own]
