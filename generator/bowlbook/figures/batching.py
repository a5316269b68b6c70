"""Figure 9, the sizes' part: which batches cover a need in few weigh-outs and with little left over."""

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import NamedTuple

from bowlbook.figures.exact_sum import in_common

MOST_WEIGH_OUTS = 24
"""More weigh-outs for one bowl than anybody would do: a slip in the amounts."""

MOST_SUMS = 200_000
"""How many sums of sizes `cover` looks at before it refuses the sizes as too many and too uneven."""


class CannotCover(ValueError):
    """No choice of sizes is given; the message says why. ``weigh_outs`` where it would take too many."""

    def __init__(self, message: str, weigh_outs: int | None = None) -> None:
        super().__init__(message)
        self.weigh_outs = weigh_outs


class Measured(NamedTuple):
    """Sizes in whole multiples of one weight, the largest such weight; the largest multiple first."""

    measure: Fraction
    multiples: tuple[int, ...]

    def multiple_above(self, need: Fraction) -> int:
        """The least multiple that is at or above a need."""
        measure = self.measure
        return -(-need.numerator * measure.denominator // (need.denominator * measure.numerator))


def cover(need: Fraction, sizes: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """The batches, each size as often as wanted, that cover ``need`` best, largest first. In one unit.

    The fewest possible weigh-outs are those of the largest size alone. Best is, with at most one weigh-out
    more than that, the least left over; then the fewest weigh-outs; then the largest first batch, and so on
    down. Exact: all sums of so many sizes that can still reach the need are looked at. Raises ValueError for
    no size or a need not above zero, and `CannotCover` where it would take more than `MOST_WEIGH_OUTS`, or
    where more than `MOST_SUMS` would have to be looked at.
    """
    if not sizes or need <= 0 or min(size.numerator for size in sizes) <= 0:
        raise ValueError("a need above zero and sizes are wanted")
    measured = measured_in_one(tuple(sizes))
    multiples = cover_in_multiples(measured.multiple_above(need), measured.multiples)
    return tuple([each * measured.measure for each in multiples])


@lru_cache(maxsize=4096)  # the services of a house need few different amounts, in its own sizes
def cover_in_multiples(wanted: int, sizes: tuple[int, ...]) -> tuple[int, ...]:
    """`cover` in whole multiples as `Measured` has them. Raises `CannotCover`."""
    fewest = -(-wanted // sizes[0])  # rounded up
    if fewest > MOST_WEIGH_OUTS:
        raise CannotCover(f"it would take {fewest} weigh-outs", fewest)
    most = min(fewest + 1, MOST_WEIGH_OUTS)
    sums = _sums(wanted, sizes, most)
    left, count = min(
        (total - wanted, count) for count in {fewest, most} for total in sums[count] if total >= wanted
    )
    rest = wanted + left
    chosen = []
    # Backwards from the sum, the largest size each time that leaves a sum which can be reached.
    for before in reversed(sums[:count]):
        size = next(size for size in sizes if rest - size in before)
        chosen.append(size)
        rest -= size
    return tuple(chosen)


def _sums(wanted: int, sizes: Sequence[int], most: int) -> list[set[int]]:
    """For 0, 1, … ``most`` batches: every sum from which ``most`` of them can still reach ``wanted``.

    ``sizes`` with the largest first. Left out is what is beyond the fewest of the largest size: never best.
    """
    enough = -(-wanted // sizes[0]) * sizes[0]
    found: list[set[int]] = [{0}]
    seen = 1
    for count in range(1, most + 1):
        least = wanted - (most - count) * sizes[0]
        reached = {before + size for before in found[-1] for size in sizes}
        found.append({total for total in reached if least <= total <= enough})
        seen += len(found[-1])
        if seen > MOST_SUMS:
            raise CannotCover("the sizes are too many and too uneven to choose from")
    return found


@lru_cache(maxsize=1024)  # most recipes of a house have its own sizes
def measured_in_one(sizes: tuple[Fraction, ...]) -> Measured:
    """Sizes as whole numbers, so that sums which are equal meet in one set, however uneven the sizes are."""
    counts, scale = in_common(sizes)
    common = gcd(*counts)
    multiples = sorted({count // common for count in counts}, reverse=True)
    return Measured(Fraction(common, scale), tuple(multiples))
