"""Figure 4: the worst error that rounding causes in a bowl, and the nearest size that a scale can weigh."""

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from bowlbook.figures.rounding import half_up
from bowlbook.figures.weigh_out import Reading, ReadsZero, in_steps

FARTHEST = 20_000
"""How many steps above a batch `next_weighable_batch` looks at most."""


def worst_error(readings: Sequence[Reading]) -> Fraction:
    """The largest relative error among all readings of a bowl, additives included, as a fraction of 1.

    The developer's and each additive's error is taken against ratio x lightener as weighed, as its `Reading`
    carries it.
    """
    return max(reading.error for reading in readings)


def weighable(steps: Fraction, parts: Sequence[Fraction], ratios: Sequence[Fraction], most: Fraction) -> bool:
    """Whether nothing of a batch reads zero and its `worst_error` is at most ``most``, a fraction of 1.

    ``steps``: the batch divided by the scale's step, not always whole. ``ratios``: of the developer and each
    additive to the lightener. Worked out in steps and whole numbers, without making readings.
    """
    total, count = sum(parts, Fraction(0)), half_up(steps)
    exacts = [*(part * steps / total for part in parts), *(ratio * count for ratio in ratios)]
    try:
        readings = in_steps(count, parts, ratios)
    except ReadsZero:
        return False
    return all(
        abs(read * exact.denominator - exact.numerator) * most.denominator <= most.numerator * exact.numerator
        for read, exact in zip(readings, exacts, strict=True)
    )


def next_weighable_batch(
    batch: Fraction,
    parts: Sequence[Fraction],
    ratios: Sequence[Fraction],
    step: Fraction,
    tolerance: Fraction,
) -> Fraction | None:
    """The smallest batch in whole steps, at or above ``batch``, that is `weighable` within ``tolerance``.

    All weights in one unit; ``ratios`` as for `weighable`; ``tolerance`` as a fraction of 1, itself still
    within. There always is one: at a multiple of the recipe's own period nothing needs rounding. None only
    where that is more than `FARTHEST` steps away and none came before it.
    """
    first = -((-batch) // step)
    period = _period(parts, ratios)
    last = first + min(-first % period, FARTHEST)
    # One by one: a larger batch can be worse than a smaller one, so that nothing can be skipped.
    for count in range(int(first), int(last) + 1):
        if count and weighable(Fraction(count), parts, ratios, tolerance):
            return count * step
    return None


def _period(parts: Sequence[Fraction], ratios: Sequence[Fraction]) -> int:
    """Steps after which all pours come out whole."""
    total = sum(parts, Fraction(0))
    return lcm(*(ratio.denominator for ratio in ratios), *((part / total).denominator for part in parts))
