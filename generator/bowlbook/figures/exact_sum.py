"""Exact sums of fractions, added up as whole numbers."""

from collections.abc import Iterable
from fractions import Fraction
from math import lcm


def in_common(numbers: Iterable[Fraction | int]) -> tuple[list[int], int]:
    """Numbers as numerators over their least common denominator, which comes second; 1 of no numbers."""
    ratios = [each.as_integer_ratio() for each in numbers]
    common = lcm(*[denominator for _, denominator in ratios])
    return [numerator * (common // denominator) for numerator, denominator in ratios], common


def exact_sum(numbers: Iterable[Fraction]) -> Fraction:
    """The sum, exact; 0 of no numbers. Brought to lowest terms once, not after each number."""
    numerators, common = in_common(numbers)
    return Fraction(sum(numerators), common)


def known_sum(numbers: Iterable[Fraction | None]) -> Fraction | None:
    """The exact sum of the numbers that are known; None where none is."""
    known = [each for each in numbers if each is not None]
    if len(known) == 1:
        return known[0]
    return exact_sum(known) if known else None
