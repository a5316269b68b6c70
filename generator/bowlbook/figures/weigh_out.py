"""Figure 1: a batch weighed out in parts on a scale with steps."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

from bowlbook.figures.rounding import half_up, half_up_of, shares

NO_ERROR = Fraction(0)
Fractions = Sequence[Fraction]


class ReadsZero(ValueError):
    """A part of this batch is so small that the scale would show nothing. ``index`` says which."""

    def __init__(self, index: int) -> None:
        super().__init__("a part would read zero on this scale")
        self.index = index


class Reading(NamedTuple):
    """One weight: exact, and as read on the scale. Both in the batch's unit."""

    exact: Fraction
    weigh: Fraction

    @property
    def error(self) -> Fraction:
        """Relative error that rounding caused: |reading - exact| / exact."""
        return abs(self.weigh - self.exact) / self.exact if self.weigh != self.exact else NO_ERROR


def weigh_out(batch: Fraction, parts: Fractions, step: Fraction) -> list[Reading]:
    """The readings of a batch: exact weights ``batch x part / sum of parts``, read in whole steps.

    ``batch`` and ``step`` in the same unit of weight, above zero; the readings come in it too. They add up
    to the batch rounded half up to a step, shared by largest remainder, ties to the part listed first.
    Raises `ReadsZero` where a part would read zero.
    """
    steps = shares(half_up(batch / step), parts)
    if 0 in steps:
        raise ReadsZero(steps.index(0))
    total = sum(parts)
    return [Reading(batch * part / total, count * step) for part, count in zip(parts, steps, strict=True)]


def pour(lightener: Fraction, ratio: Fraction, step: Fraction) -> Reading:
    """Figure 2: developer (or an additive) for the lightener as weighed.

    ``ratio`` is developer over lightener, by weight. The exact weight is ratio x lightener as weighed; the
    reading is rounded half up to a step. Raises `ReadsZero` where it would read zero.
    """
    exact = lightener * ratio
    count = half_up(exact / step)
    if count == 0:
        raise ReadsZero(0)
    return Reading(exact, count * step)


def in_steps(steps: int, parts: Fractions, ratios: Fractions) -> list[int]:
    """What `weigh_out`, and `pour` for each ratio, read for a batch of whole steps: in steps, in that order.

    Raises `ReadsZero` where one would read zero; its index counts the parts, then the ratios.
    """
    readings = shares(steps, parts)
    readings += [half_up_of(steps * ratio.numerator, ratio.denominator) for ratio in ratios]
    if 0 in readings:
        raise ReadsZero(readings.index(0))
    return readings


def running_totals(weights: Fractions) -> list[Fraction]:
    """Figure 3: what the scale shows after each pour, the bowl tared once before the first."""
    return list(accumulate(weights))
