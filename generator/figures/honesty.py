"""Figure 4: the worst error that rounding causes in a bowl, and the next batch that weighs honestly."""

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from generator.figures.weigh_out import Reading, ReadsZero, in_steps

FARTHEST = 20_000
"""How many steps above a batch `next_honest_batch` looks at most."""


def worst_error(lighteners: Sequence[Reading], developer: Reading) -> Fraction:
    """The largest relative error among the lighteners and the developer, as a fraction of 1.

    The developer's error is taken against ratio x lightener as weighed, as its `Reading` carries it.
    """
    return max(reading.error for reading in (*lighteners, developer))


def next_honest_batch(
    batch: Fraction,
    parts: Sequence[Fraction],
    ratio: Fraction,
    step: Fraction,
    tolerance: Fraction,
) -> Fraction | None:
    """The smallest batch in whole steps, at or above ``batch``, whose worst error is within tolerance.

    All weights in one unit; ``tolerance`` as a fraction of 1, itself still within. There always is one: at
    a multiple of the recipe's own period nothing needs rounding. None only where that lies more than
    `FARTHEST` steps off and none came before it.
    """
    first = -((-batch) // step)
    period = _period(parts, ratio)
    last = first + min(-first % period, FARTHEST)
    for count in range(int(first), int(last) + 1):
        if count and _within(count, parts, ratio, tolerance):
            return count * step
    return None


def _period(parts: Sequence[Fraction], ratio: Fraction) -> int:
    """Steps after which parts and developer all come out whole."""
    total = sum(parts, Fraction(0))
    return lcm(ratio.denominator, *((part / total).denominator for part in parts))


def _within(count: int, parts: Sequence[Fraction], ratio: Fraction, tolerance: Fraction) -> bool:
    """Whether a batch of whole steps reads within tolerance: `worst_error`, in steps and whole numbers."""
    total = sum(parts, Fraction(0))
    exacts = [*(part * count / total for part in parts), ratio * count]
    try:
        readings = in_steps(count, parts, [ratio])
    except ReadsZero:
        return False
    return all(
        abs(read * exact.denominator - exact.numerator) * tolerance.denominator
        <= tolerance.numerator * exact.numerator
        for read, exact in zip(readings, exacts, strict=True)
    )
