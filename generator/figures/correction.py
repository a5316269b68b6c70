"""Figure 5, correct my bowl: a pour came out wrong, and the others must now keep the recipe."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from generator.figures.honesty import FARTHEST
from generator.figures.rounding import half_up
from generator.figures.weigh_out import ReadsZero, in_steps

NOTHING = Fraction(0)


class Corrected(NamedTuple):
    """One pour of a corrected bowl: what is in already, and what it must be."""

    in_bowl: Fraction
    must_be: Fraction

    @property
    def add(self) -> Fraction:
        """What is still to pour of it."""
        return self.must_be - self.in_bowl


class Correction(NamedTuple):
    """A corrected bowl: its new batch (all lightener together) and each pour in pouring order."""

    batch: Fraction
    pours: tuple[Corrected, ...]


def correct(
    batch: Fraction,
    parts: Sequence[Fraction],
    ratios: Sequence[Fraction],
    step: Fraction,
    poured: Mapping[int, Fraction],
) -> Correction:
    """The smallest bowl of the same recipe, in whole steps, that holds what is already in it.

    ``parts``: of the lighteners. ``ratios``: of the developer and each additive to the lightener.
    ``poured``: what a pour really weighed, by its place in pouring order (lighteners, then ratios); all
    weights in one unit. A bowl whose pours do not exceed what was planned keeps its batch;
    otherwise it grows to hold them exactly. Never less than ``batch``, nor any pour less than what is in.
    Raises `ReadsZero` where a pour as planned would read zero, ValueError for a weight not above zero.
    """
    if any(weight <= 0 for weight in poured.values()):
        raise ValueError("a pour weighs more than nothing")
    needed = {place: -int(-weight // step) for place, weight in poured.items()}  # whole steps that hold it
    planned = half_up(batch / step)
    steps, readings = _smallest(planned, in_steps(planned, parts, ratios), parts, ratios, needed)
    return _correction(steps, readings, step, poured)


def over_by_one(
    batch: Fraction, parts: Sequence[Fraction], ratios: Sequence[Fraction], step: Fraction
) -> tuple[Correction, ...]:
    """For each pour in turn: the bowl put right when that pour, and no later one, went one step over."""
    planned = half_up(batch / step)
    readings = in_steps(planned, parts, ratios)
    corrections = []
    for place, reading in enumerate(readings):
        needed = dict(enumerate(readings[:place])) | {place: reading + 1}
        poured = {i: count * step for i, count in needed.items()}
        corrections.append(_correction(*_smallest(planned, readings, parts, ratios, needed), step, poured))
    return tuple(corrections)


def _smallest(
    planned: int,
    readings: list[int],
    parts: Sequence[Fraction],
    ratios: Sequence[Fraction],
    needed: Mapping[int, int],
) -> tuple[int, list[int]]:
    """The smallest batch from ``planned`` up, and its pours, that holds what is needed; all in steps.

    ``readings``: those of the planned batch.
    """
    if _holds(readings, needed):
        return planned, readings
    total = sum(parts, Fraction(0))
    each_of = [part / total for part in parts] + list(ratios)
    # Rounding never adds a whole step, so that a bowl with less than this cannot hold a pour.
    least = max(planned, *(ceil((count - 1) / each_of[place]) for place, count in needed.items()))
    for steps in range(least, least + FARTHEST):
        try:
            readings = in_steps(steps, parts, ratios)
        except ReadsZero:  # a step more can take a small part's only step from it
            continue
        if _holds(readings, needed):
            return steps, readings
    raise ValueError("no bowl of this recipe holds what is already poured")


def _correction(
    steps: int, readings: Sequence[int], step: Fraction, poured: Mapping[int, Fraction]
) -> Correction:
    pours = (Corrected(poured.get(place, NOTHING), count * step) for place, count in enumerate(readings))
    return Correction(steps * step, tuple(pours))


def _holds(readings: Sequence[int], needed: Mapping[int, int]) -> bool:
    return all(readings[place] >= count for place, count in needed.items())
