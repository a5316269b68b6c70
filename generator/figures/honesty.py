"""Figure 4: the worst error that rounding causes in a bowl, and the next batch that weighs honestly."""

from collections.abc import Sequence
from fractions import Fraction
from math import lcm

from generator.figures.rounding import half_up
from generator.figures.weigh_out import Reading, ReadsZero, in_steps

FARTHEST = 20_000
"""How many steps above a batch `next_honest_batch` looks at most."""


def worst_error(lighteners: Sequence[Reading], developer: Reading) -> Fraction:
    """The largest relative error among the lighteners and the developer, as a fraction of 1.

    The developer's error is taken against ratio x lightener as weighed, as its `Reading` carries it.
    """
    return max(reading.error for reading in (*lighteners, developer))


def weighs_honestly(
    batch: Fraction,
    parts: Sequence[Fraction],
    ratio: Fraction,
    additives: Sequence[Fraction],
    step: Fraction,
    tolerance: Fraction,
) -> bool:
    """Whether nothing of a batch reads zero and its `worst_error` is within tolerance, itself still within.

    ``additives``: the ratio of each to the lightener; they can read zero, and are no part of the error.
    ``batch`` and ``step`` in one unit; ``tolerance`` as a fraction of 1.
    """
    return _within(batch / step, parts, [ratio, *additives], tolerance)


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
        if count and _within(Fraction(count), parts, [ratio], tolerance):
            return count * step
    return None


def _period(parts: Sequence[Fraction], ratio: Fraction) -> int:
    """Steps after which parts and developer all come out whole."""
    total = sum(parts, Fraction(0))
    return lcm(ratio.denominator, *((part / total).denominator for part in parts))


def _within(steps: Fraction, parts: Sequence[Fraction], ratios: Sequence[Fraction], most: Fraction) -> bool:
    """Whether a batch of so many steps reads within ``most``: `worst_error`, in steps and whole numbers.

    The first of ``ratios`` is the developer's; what comes after it only must not read zero.
    """
    total, count = sum(parts, Fraction(0)), half_up(steps)
    exacts = [*(part * steps / total for part in parts), ratios[0] * count]
    try:
        readings = in_steps(count, parts, ratios)
    except ReadsZero:
        return False
    return all(
        abs(read * exact.denominator - exact.numerator) * most.denominator <= most.numerator * exact.numerator
        for read, exact in zip(readings, exacts, strict=False)
    )
