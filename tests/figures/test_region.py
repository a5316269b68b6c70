"""Regions of heads against every head in turn: what is common, what is left over, which levels are reached.

Reference: plain enumeration of all members, which owes nothing to the algebra under test.
"""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from bowlbook.entries.facets import Facets
from bowlbook.figures.region import common, levels_reached, outside, region_of
from bowlbook.reading.amount import Span

SMALL = st.tuples(*(st.integers(1, 7) for _ in range(3)))
"""Regions of three facets with three values each: 27 heads in all."""


def members(region) -> set[tuple[int, ...]]:
    if region is None:
        return set()
    return set(product(*([n for n in range(3) if bits >> n & 1] for bits in region)))


@given(SMALL, SMALL)
def test_common_is_the_intersection(first, second) -> None:
    assert members(common(first, second)) == members(first) & members(second)


@given(SMALL, st.lists(SMALL, max_size=5))
def test_outside_is_some_of_the_difference_and_none_only_where_it_is_empty(region, covers) -> None:
    left = members(region).difference(*map(members, covers))
    found = members(outside(region, covers))
    assert found <= left
    assert bool(found) == bool(left)


def test_two_regions_cover_a_third_together() -> None:
    """Neither level 1-3 nor 4-7 holds level 2-6; together they do."""
    low, high = (region_of(Facets(natural_level=Span(*span))) for span in ((1, 3), (4, 7)))
    between = region_of(Facets(natural_level=Span(2, 6)))
    assert outside(between, [low]) is not None
    assert outside(between, [low, high]) is None


def test_levels_that_leave_no_room_are_no_head() -> None:
    """lift = target level - natural level: four levels up from level 7 would be level 11."""
    assert region_of(Facets(natural_level=Span(7, 9), lift=Span(4, 9))) is None
    assert region_of(Facets(natural_level=Span(4, 4), lift=Span(2, 2), target_level=Span(7, 8))) is None


def test_levels_reached() -> None:
    """Level 4 to 5 lifted by 3 to 4: level 7, 8 or 9; with a target of 8 only that."""
    facets = Facets(natural_level=Span(4, 5), lift=Span(3, 4))
    assert levels_reached(region_of(facets)) == (7, 8, 9)
    narrowed = common(region_of(facets), region_of(Facets(target_level=Span(8, 8))))
    assert levels_reached(narrowed) == (8,)


def test_a_target_level_and_a_lift_are_one_with_the_natural_level_they_leave() -> None:
    by_target = region_of(Facets(target_level=Span(9, 9), lift=Span(2, 2)))
    assert by_target == region_of(Facets(natural_level=Span(7, 7), lift=Span(2, 2)))
