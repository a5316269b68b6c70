"""Figures 1 to 5 of a bowl together: weights alone, the same for all recipes of the same parts and ratios."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from bowlbook.figures.weigh_out import Reading, ReadsZero, pour, running_totals, weigh_out
from bowlbook.figures.weighable import next_weighable_batch, worst_error


@dataclass(frozen=True, slots=True)
class Weighing:
    """A batch as it is weighed, all weights in one unit.

    ``readings``: of the parts, then of the developer and each additive; ``scale_shows`` after each of them.
    ``worst_error``, and the house's ``tolerance`` for it, as fractions of 1. ``reads_zero``: the place of the
    pour that would read zero; there are then no readings. ``next_weighable_batch``: the nearest size that
    this scale can weigh, this batch or a larger.
    """

    batch: Fraction
    parts: tuple[Fraction, ...]
    ratios: tuple[Fraction, ...]
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
    batch: Fraction,
    parts: tuple[Fraction, ...],
    ratios: tuple[Fraction, ...],
    step: Fraction,
    tolerance: Fraction,
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
