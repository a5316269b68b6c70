"""Figure 5, correct my bowl: a pour came out wrong, and what is still to pour must now keep the recipe."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from itertools import accumulate
from math import ceil
from typing import NamedTuple

from bowlbook.figures.rounding import half_up
from bowlbook.figures.weigh_out import Fractions, ReadsZero, in_steps
from bowlbook.figures.weighing import FARTHEST

NOTHING = Fraction(0)


class Corrected(NamedTuple):
    """One pour of a corrected bowl.

    ``in_bowl``: what is in already; ``must_be``: what it must be in the end. ``scale_shows``: the running
    total once this pour has been put right, the pours being put right in pouring order.
    """

    in_bowl: Fraction
    must_be: Fraction
    scale_shows: Fraction

    @property
    def add(self) -> Fraction:
        """What is still to pour of it."""
        return self.must_be - self.in_bowl


class Correction(NamedTuple):
    """A corrected bowl: its new batch (all lightener together) and each pour in pouring order."""

    batch: Fraction
    pours: tuple[Corrected, ...]


class TooLittleShown(ValueError):
    """The scale is said to show no more than what was in before a pour. ``before``: what that weighs."""

    def __init__(self, before: Fraction) -> None:
        super().__init__("the scale shows no more than what was in before this pour")
        self.before = before


def correct(
    batch: Fraction, parts: Fractions, ratios: Fractions, step: Fraction, poured: Mapping[int, Fraction]
) -> Correction:
    """The smallest bowl of the same recipe, in whole steps, that holds what is already in it.

    ``parts``: of the lighteners. ``ratios``: of the developer and each additive to the lightener.
    ``poured``: what a pour really weighed, by its place in pouring order (lighteners, then ratios); all
    weights in one unit, not always whole steps; zero for a pour that was left out. Everything before the
    last place mentioned is in the bowl as planned unless it has a weight of its own; what comes later is
    not in yet. Never less than ``batch``, nor any pour less than what is in.
    Raises `ReadsZero` where a pour as planned would read zero, ValueError for a negative weight.
    """
    if not poured or any(weight < 0 for weight in poured.values()):
        raise ValueError("a pour weighs nothing or more")
    planned = half_up(batch / step)
    readings = in_steps(planned, parts, ratios)
    in_bowl = in_bowl_after(max(poured), [count * step for count in readings], poured)
    # What is in the bowl is rounded up: nothing is taken out, so the new bowl must hold all of it.
    steps, readings = _smallest(planned, readings, parts, ratios, [-int(-each // step) for each in in_bowl])
    must_be = [count * step for count in readings]
    in_bowl += [NOTHING] * (len(must_be) - len(in_bowl))
    adds = (must - now for must, now in zip(must_be, in_bowl, strict=True))
    shown = list(accumulate(adds, initial=sum(in_bowl, NOTHING)))[1:]
    return Correction(steps * step, tuple(map(Corrected, in_bowl, must_be, shown)))


def in_bowl_after(place: int, planned: Fractions, poured: Mapping[int, Fraction]) -> list[Fraction]:
    """What is in the bowl of each pour up to ``place``: as planned, unless ``poured`` says otherwise."""
    return [poured.get(each, planned[each]) for each in range(place + 1)]


def weight_shown(place: int, shows: Fraction, planned: Fractions, poured: Mapping[int, Fraction]) -> Fraction:
    """What the pour at ``place`` weighed, where the tared scale ``shows`` this much after it.

    ``planned``: the readings of the bowl; ``poured``: weights that differ from them. All in one unit.
    Raises `TooLittleShown` where it shows no more than what was in before.
    """
    before = sum(in_bowl_after(place - 1, planned, poured), NOTHING)
    if shows <= before:
        raise TooLittleShown(before)
    return shows - before


def over_by_one(
    batch: Fraction, parts: tuple[Fraction, ...], ratios: tuple[Fraction, ...], step: Fraction
) -> tuple[Correction, ...]:
    """For each pour in turn: the bowl put right when that pour, and no later one, went one step over."""
    readings = in_steps(half_up(batch / step), parts, ratios)
    return tuple(
        correct(batch, parts, ratios, step, {place: (count + 1) * step})
        for place, count in enumerate(readings)
    )


def _smallest(
    planned: int, readings: list[int], parts: Fractions, ratios: Fractions, needed: Sequence[int]
) -> tuple[int, list[int]]:
    """The smallest batch from ``planned`` up, and its pours, that holds what is needed; all in steps.

    ``readings``: those of the planned batch. ``needed``: of the pours that are in, in pouring order.
    """
    if _holds(readings, needed):
        return planned, readings
    total = sum(parts, Fraction(0))
    each_of = [part / total for part in parts] + list(ratios)
    # Rounding never adds a whole step, so that a bowl with less than this cannot hold a pour.
    least = max(planned, *(ceil((count - 1) / share) for count, share in zip(needed, each_of, strict=False)))
    # The bound is for slips in typing: a true mistake is put right far nearer.
    for steps in range(least, least + FARTHEST):
        try:
            readings = in_steps(steps, parts, ratios)
        except ReadsZero:  # a step more can take a small part's only step from it
            continue
        if _holds(readings, needed):
            return steps, readings
    raise ValueError("no bowl of this recipe holds what is already poured")


def _holds(readings: Sequence[int], needed: Sequence[int]) -> bool:
    return all(count >= least for count, least in zip(readings, needed, strict=False))
