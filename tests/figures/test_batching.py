"""The sizes' cover against brute force: few weigh-outs, then the least left over."""

import os
from fractions import Fraction as F
from itertools import combinations_with_replacement

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bowlbook.figures.batching import MOST_WEIGH_OUTS, CannotCover, cover

ladders = st.lists(st.integers(1, 24).map(lambda n: F(n, 4)), min_size=1, max_size=4, unique=True)


def brute_force(need: F, ladder: list[F]) -> tuple[F, ...]:
    """The best choice by the rule of the docs, by trying every choice of so many batches.

    At most one weigh-out more than the fewest possible; then the least left over, the fewest weigh-outs, and
    the largest first batch.
    """
    choices: list[tuple[F, ...]] = []
    count = 0
    while not any(sum(choice) >= need for choice in choices):
        count += 1
        choices = list(combinations_with_replacement(sorted(ladder, reverse=True), count))
    choices += combinations_with_replacement(sorted(ladder, reverse=True), count + 1)
    enough = [choice for choice in choices if sum(choice) >= need]
    return min(enough, key=lambda choice: (sum(choice), len(choice), [-batch for batch in choice]))


@pytest.mark.more
@settings(max_examples=500 if os.environ.get("BOWLBOOK_LONG") else 120)
@given(st.integers(1, 60).map(lambda n: F(n, 12)), ladders)
def test_needs_equal_brute_force(need: F, ladder: list[F]) -> None:
    assert cover(need, ladder) == brute_force(need, ladder)


@pytest.mark.parametrize(
    ("need", "ladder", "batches"),
    [
        (98, [7, 30, 60], [60, 60]),  # fourteen of 7 g leave nothing over, and nobody weighs fourteen times
        (98, [7, 30, 61], [61, 30, 7]),  # 61 twice leave 24 g; one weigh-out more leaves nothing
        (45, [15, 30, 60], [30, 15]),
        (60, [15, 30, 60], [60]),  # 30 twice leave as little: fewer weigh-outs
        (90, [15, 30, 45, 60], [60, 30]),  # 45 twice too: the largest first
        (1, [15, 30, 60], [15]),
    ],
)
def test_worked_by_hand(need: int, ladder: list[int], batches: list[int]) -> None:
    assert cover(F(need), list(map(F, ladder))) == tuple(batches)


def test_uneven_sizes_are_chosen_from_exactly() -> None:
    """Sizes of six decimals: 7.000001, 30.000003 and 60.000007 g for 98 g."""
    sizes = [F("7.000001"), F("30.000003"), F("60.000007")]
    assert cover(F(98), sizes) == brute_force(F(98), sizes)
    assert cover(F(1370), sizes) == (F("60.000007"),) * 22 + (F("30.000003"), F("30.000003"))
    assert cover(F(1430), sizes) == (F("60.000007"),) * 24  # a 25th weigh-out nobody does


def test_sizes_that_are_too_many_and_too_uneven_are_refused() -> None:
    sizes = [F(500) + F(7**n % 1_000_003, 10_000) for n in range(1, 25)]
    with pytest.raises(CannotCover, match=r"^the sizes are too many and too uneven to choose from$"):
        cover(F(11_000), sizes)


def test_more_weigh_outs_than_anybody_would_do_are_refused() -> None:
    assert len(cover(F(MOST_WEIGH_OUTS), [F(1)])) == MOST_WEIGH_OUTS
    with pytest.raises(CannotCover, match=r"^it would take 25 weigh-outs$") as refusal:
        cover(F(MOST_WEIGH_OUTS) + F(1, 1000), [F(1)])
    assert refusal.value.weigh_outs == MOST_WEIGH_OUTS + 1


def test_wrong_use() -> None:
    for need, ladder in ((F(1), []), (F(0), [F(1)]), (F(1), [F(1), F(0)])):
        with pytest.raises(ValueError, match=r"^a need above zero and sizes are wanted$"):
            cover(need, ladder)
