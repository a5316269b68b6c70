"""Figures 1 to 5 of a bowl together: weights alone, the same for all recipes of the same parts and ratios."""

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import lcm
from typing import NamedTuple

from bowlbook.figures.exact_sum import in_common
from bowlbook.figures.rounding import half_up
from bowlbook.figures.weigh_out import (
    Fractions,
    Reading,
    ReadsZero,
    in_steps,
    pour,
    running_totals,
    weigh_out,
)

FARTHEST = 20_000
"""How many steps above a batch a search goes at most: an odd recipe on a fine scale could take for ever."""


def worst_error(readings: Sequence[Reading]) -> Fraction:
    """The largest relative error among all readings of a bowl, additives included, as a fraction of 1.

    The developer's and each additive's error is taken against ratio x lightener as weighed, as its `Reading`
    carries it.
    """
    return max(reading.error for reading in readings)


def weighable(steps: Fraction, parts: Fractions, ratios: Fractions, most: Fraction) -> bool:
    """Whether nothing of a batch reads zero and its `worst_error` is at most ``most``, a fraction of 1.

    ``steps``: the batch divided by the scale's step, not always whole. ``ratios``: of the developer and each
    additive to the lightener. Worked out in steps and whole numbers, without making readings.
    """
    weights, count = in_common(parts)[0], half_up(steps)
    whole, share = steps.numerator, steps.denominator * sum(weights)
    exacts = [(weight * whole, share) for weight in weights]
    exacts += [(ratio.numerator * count, ratio.denominator) for ratio in ratios]
    try:
        readings = in_steps(count, parts, ratios)
    except ReadsZero:
        return False
    return all(
        abs(read * share - exact) * most.denominator <= most.numerator * exact
        for read, (exact, share) in zip(readings, exacts, strict=True)
    )


def next_weighable_batch(
    batch: Fraction, parts: Fractions, ratios: Fractions, step: Fraction, tolerance: Fraction
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


def _period(parts: Fractions, ratios: Fractions) -> int:
    """Steps after which all pours come out whole."""
    total = sum(parts, Fraction(0))
    return lcm(*(ratio.denominator for ratio in ratios), *((part / total).denominator for part in parts))


Numbers = tuple[Fraction, ...]


class Weighing(NamedTuple):
    """A batch as it is weighed, all weights in one unit.

    ``readings``: of the parts, then of the developer and each additive; ``scale_shows`` after each of them.
    ``worst_error``, and the house's ``tolerance`` for it, as fractions of 1. ``reads_zero``: the place of the
    pour that would read zero; there are then no readings. ``next_weighable_batch``: the nearest size that
    this scale can weigh, this batch or a larger.
    """

    batch: Fraction
    parts: Numbers
    ratios: Numbers
    step: Fraction
    tolerance: Fraction
    readings: tuple[Reading, ...]
    scale_shows: tuple[Fraction, ...]
    worst_error: Fraction
    next_weighable_batch: Fraction | None
    reads_zero: int | None = None

    @property
    def within_tolerance(self) -> bool:
        """Whether no pour reads zero and rounding to the scale stays within the tolerance."""
        return self.reads_zero is None and self.worst_error <= self.tolerance


@lru_cache(maxsize=8192)  # many recipes share their proportions, and pages show the same sizes
def weighing_of(
    batch: Fraction, parts: Numbers, ratios: Numbers, step: Fraction, tolerance: Fraction
) -> Weighing:
    """The weighing of a batch. ``ratios``: the developer's first; ``tolerance`` as a fraction of 1."""
    readings: list[Reading] = []
    try:
        readings += weigh_out(batch, parts, step)
        weighed = sum((reading.weigh for reading in readings), Fraction(0))
        for ratio in ratios:
            readings.append(pour(weighed, ratio, step))
    except ReadsZero as zero:
        following = next_weighable_batch(batch, parts, ratios, step, tolerance)
        place = len(readings) or zero.index  # weigh_out says which part, a pour is the next one
        return Weighing(batch, parts, ratios, step, tolerance, (), (), Fraction(0), following, place)
    error = worst_error(readings)
    # A batch between two steps cannot be shown by the scale, however small its error.
    if error <= tolerance and (batch / step).denominator == 1:
        nearest: Fraction | None = batch
    else:
        nearest = next_weighable_batch(batch, parts, ratios, step, tolerance)
    shown = running_totals([reading.weigh for reading in readings])
    return Weighing(batch, parts, ratios, step, tolerance, tuple(readings), tuple(shown), error, nearest)
