"""Figure 5, correct my bowl: a pour came out wrong, and the others must now keep the recipe."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.figures.bowl import Bowl
from generator.figures.honesty import FARTHEST
from generator.figures.rounding import half_up
from generator.figures.weigh_out import ReadsZero, in_steps


@dataclass(frozen=True, slots=True)
class Corrected:
    """One pour of a corrected bowl: what is in already, what it must be, what is still to add."""

    in_bowl: Fraction
    must_be: Fraction
    add: Fraction


@dataclass(frozen=True, slots=True)
class Correction:
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
    planned = half_up(batch / step)
    readings = in_steps(planned, parts, ratios)
    needed = {place: -int(-weight // step) for place, weight in poured.items()}  # whole steps that hold it
    steps = planned
    if not _holds(readings, needed):
        total = sum(parts, Fraction(0))
        each_of = [part / total for part in parts] + list(ratios)
        # Rounding never adds a whole step, so that a bowl with less than this cannot hold a pour.
        least = max(planned, *(-int(-(weight / step - 1) // each_of[i]) for i, weight in poured.items()))
        for steps in range(least, least + FARTHEST):
            try:
                readings = in_steps(steps, parts, ratios)
            except ReadsZero:  # a step more can take a small part's only step from it
                continue
            if _holds(readings, needed):
                break
        else:
            raise ValueError("no bowl of this recipe holds what is already poured")
    pours = []
    for place, count in enumerate(readings):
        must_be, in_bowl = count * step, poured.get(place, Fraction(0))
        pours.append(Corrected(in_bowl, must_be, must_be - in_bowl))
    return Correction(steps * step, tuple(pours))


def correct_bowl(bowl: Bowl, poured: Mapping[int, Fraction]) -> Correction:
    """`correct` for a bowl that is being mixed; ``poured`` in the bowl's unit, by place in pouring order."""
    blend = bowl.blend
    ratios = [blend.developer.ratio.value, *(each.ratio.value for each in blend.additives)]
    return correct(bowl.batch, [each.parts for each in blend.shares], ratios, bowl.step, poured)


def one_step_over(bowl: Bowl) -> list[Correction]:
    """For each pour in turn: the bowl put right when that pour, and no later one, went one step over."""
    corrections = []
    for place in range(len(bowl.pours)):
        poured = {i: each.reading.weigh for i, each in enumerate(bowl.pours[:place])}
        poured[place] = bowl.pours[place].reading.weigh + bowl.step
        corrections.append(correct_bowl(bowl, poured))
    return corrections


def _holds(readings: Sequence[int], needed: Mapping[int, int]) -> bool:
    return all(readings[place] >= count for place, count in needed.items())
