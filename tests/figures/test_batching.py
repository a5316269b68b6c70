"""The ladder's cover against brute force: the least left over, then the fewest weigh-outs."""

from fractions import Fraction as F
from itertools import combinations_with_replacement

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.figures.batching import cover

ladders = st.lists(st.integers(1, 24).map(lambda n: F(n, 4)), min_size=1, max_size=4, unique=True)


def brute_force(need: F, ladder: list[F]) -> tuple[F, int]:
    """Left over and weigh-outs of the best choice, by trying every choice that could be best."""
    most = int(need / min(ladder)) + 1
    best: tuple[F, int] | None = None
    for count in range(1, most + 1):
        for choice in combinations_with_replacement(ladder, count):
            left = sum(choice) - need
            if left >= 0 and (best is None or (left, count) < best):
                best = (left, count)
    assert best is not None
    return best


@settings(max_examples=500)
@given(st.integers(1, 40).map(lambda n: F(n, 12)), ladders)
def test_five_hundred_needs_equal_brute_force(need: F, ladder: list[F]) -> None:
    found = cover(need, ladder)
    assert (found.left_over, len(found.batches)) == brute_force(need, ladder)
    assert sum(found.batches) == need + found.left_over
    assert list(found.batches) == sorted(found.batches, reverse=True)
    assert set(found.batches) <= set(ladder)


def test_refusals() -> None:
    for need, ladder in ((F(1), []), (F(0), [F(1)]), (F(10**9), [F(1, 997)])):
        with pytest.raises(ValueError):
            cover(need, ladder)
