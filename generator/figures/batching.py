"""Figure 9, the ladder's part: which batches cover a need with the least left over and fewest weigh-outs."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

MOST_UNITS = 2_000_000
"""How fine a need may be cut into the ladder's common measure before it is refused."""


@dataclass(frozen=True, slots=True)
class Batches:
    """Batches to weigh out, largest first, and what they leave over of the need."""

    batches: tuple[Fraction, ...]
    left_over: Fraction


def cover(need: Fraction, ladder: Sequence[Fraction]) -> Batches:
    """The batches of a ladder, each as often as wanted, that cover ``need`` best.

    All weights in one unit. Best is the least left over; then the fewest weigh-outs; then the largest first
    batch, and so on down. The optimum is exact: every reachable sum up to the need plus the largest batch is
    looked at once (unbounded knapsack by dynamic programming). Raises ValueError for an empty ladder, a need
    not above zero, or one cut finer than `MOST_UNITS` of the ladder's common measure.
    """
    if not ladder or need <= 0 or min(ladder) <= 0:
        raise ValueError("a need above zero and a ladder are wanted")
    measure = _common_measure(ladder)
    sizes = sorted({int(batch / measure) for batch in ladder}, reverse=True)
    wanted = -(-need // measure)
    top = int(wanted) + sizes[0]
    if top > MOST_UNITS:
        raise ValueError("this need is too large for so fine a ladder")
    fewest: list[int | None] = [0] + [None] * top
    for total in range(1, top + 1):
        counts = [
            count + 1 for size in sizes if size <= total and (count := fewest[total - size]) is not None
        ]
        fewest[total] = min(counts, default=None)
    total = next(total for total in range(int(wanted), top + 1) if fewest[total] is not None)
    left_over = total * measure - need
    chosen: list[Fraction] = []
    while total:
        count = fewest[total]
        assert count is not None
        size = next(size for size in sizes if size <= total and fewest[total - size] == count - 1)
        chosen.append(size * measure)
        total -= size
    return Batches(tuple(chosen), left_over)


def _common_measure(ladder: Sequence[Fraction]) -> Fraction:
    """The largest weight of which every batch is a whole multiple."""
    denominator = lcm(*(batch.denominator for batch in ladder))
    return Fraction(gcd(*(int(batch * denominator) for batch in ladder)), denominator)
