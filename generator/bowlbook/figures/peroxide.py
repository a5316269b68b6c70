"""Figures 6 and 7: peroxide in the bowl, and two developers mixed to a third strength."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.figures.exact_sum import exact_sum

NOMINAL_PERCENT_PER_VOLUME = Fraction(3, 10)
"""The trade's map: 10/20/30/40 volume are nominally 3/6/9/12 %. Source for the pair 12 % and 40 volumes:
Regulation (EC) 1223/2009, Annex III, entry 12. By the exact map 40 volume is 12.14 % w/v."""


def nominal_percent(volume: Fraction) -> Fraction:
    """Per cent of hydrogen peroxide that the trade reckons for a strength in volumes."""
    return volume * NOMINAL_PERCENT_PER_VOLUME


def peroxide_in_bowl(developer_percent: Fraction, developer: Fraction, total: Fraction) -> Fraction:
    """Per cent of hydrogen peroxide by weight in everything in the bowl.

    ``developer`` and ``total`` in one unit of weight, as read on the scale. Counts the developer's peroxide
    only, not what a persulfate or percarbonate gives off besides.
    """
    return developer_percent * developer / total


class Alligation(NamedTuple):
    """Parts of a weaker and a stronger developer, by weight, in lowest whole numbers."""

    weaker: int
    stronger: int


def alligation(weaker: Fraction, stronger: Fraction, wanted: Fraction) -> Alligation:
    """Parts by weight of two strengths that give a third (alligation alternate, a pharmacy method).

    The three are per cent by weight, or all in volumes. Weaker : stronger = (stronger - wanted) :
    (wanted - weaker). Raises ValueError where ``wanted`` is not strictly between the two.
    """
    if not weaker < wanted < stronger:
        raise ValueError("the strength wanted must lie between the two at hand")
    parts = (stronger - wanted) / (wanted - weaker)
    return Alligation(parts.numerator, parts.denominator)


def mixed_strength(amounts: Sequence[tuple[Fraction, Fraction]]) -> Fraction:
    """The strength of a mixture of (amount, strength) pairs: the weighted mean (alligation medial)."""
    total = exact_sum(amount for amount, _ in amounts)
    return exact_sum(amount * strength for amount, strength in amounts) / total
