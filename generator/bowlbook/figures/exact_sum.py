"""Exact sums of fractions, added up as whole numbers."""

from collections.abc import Iterable
from fractions import Fraction
from math import lcm


def exact_sum(numbers: Iterable[Fraction]) -> Fraction:
    """The sum, exact; 0 of no numbers. Brought to lowest terms once, not after each number."""
    ratios = [each.as_integer_ratio() for each in numbers]
    scale = lcm(*[denominator for _, denominator in ratios])
    return Fraction(sum([numerator * (scale // denominator) for numerator, denominator in ratios]), scale)


def known_sum(numbers: Iterable[Fraction | None]) -> Fraction | None:
    """The exact sum of the numbers that are known; None where none is."""
    known = [each for each in numbers if each is not None]
    return exact_sum(known) if known else None
