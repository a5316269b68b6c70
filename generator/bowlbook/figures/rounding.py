"""Rounding, done once and last: half up to a step, and shares that keep their sum (largest remainder)."""

from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from bowlbook.figures.exact_sum import in_common


def half_up(number: Fraction) -> int:
    """The nearest whole number of a number from zero up; a half goes up."""
    return half_up_of(number.numerator, number.denominator)


def half_up_of(numerator: int, denominator: int) -> int:
    """`half_up` of a numerator over a denominator."""
    return (2 * numerator + denominator) // (2 * denominator)


def shares(total: int, weights: Sequence[Fraction]) -> list[int]:
    """``total`` whole units shared in proportion to ``weights`` (none negative, not all zero).

    Largest remainder, the method of Hamilton (1792): each share is first the floor of its quota; the units
    left over go to the largest remainders, ties to the one listed first. The shares add up to ``total``,
    and each is the floor or the ceiling of its quota. A share can fall while ``total`` rises.
    """
    # Weights as whole numbers, so that floors and remainders are exact and no fraction is made per share.
    return whole_shares(total, in_common(weights)[0])


def whole_shares(total: int, weights: Sequence[int]) -> list[int]:
    """`shares` in proportion to whole numbers."""
    weight = sum(weights)
    split = [divmod(total * each, weight) for each in weights]
    found = [floor for floor, _ in split]
    left = total - sum(found)
    if left:
        for index in sorted(range(len(split)), key=lambda i: (-split[i][1], i))[:left]:
            found[index] += 1
    return found


@cache  # a house has one or two scales, and each weight that is shown asks
def decimals_of(step: Fraction) -> int:
    """How many decimals a scale with this step shows; at most 6."""
    # Amounts are written with six decimals at most (`bowlbook.entries.amounts`).
    for places in range(7):
        if (step * 10**places).denominator == 1:
            return places
    return 6


def fixed(number: Fraction, places: int) -> str:
    """A number from zero up with exactly ``places`` decimals, half up."""
    numerator, denominator = number.as_integer_ratio()
    units = str(half_up_of(numerator * 10**places, denominator)).rjust(places + 1, "0")
    return f"{units[:-places]}.{units[-places:]}" if places else units
