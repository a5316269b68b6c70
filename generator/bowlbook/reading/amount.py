"""Amounts as values: weights, volumes, pieces, ratios and spans, and how numbers are written out.

`bowlbook.reading.read_amount` reads them as people write them.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property


@dataclass(frozen=True, slots=True)
class _Measured:
    number: Fraction
    unit: str

    def __str__(self) -> str:
        return f"{plain(self.number)} {self.unit}"


class Mass(_Measured):
    """A weight. ``number`` in ``unit``: oz (avoirdupois), g, kg or lb."""

    __slots__ = ()


class Volume(_Measured):
    """A volume. ``number`` in ``unit``: mL, L, fl oz (US), imperial fl oz, or one of `TRADE_UNITS`."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Count:
    """A number of pieces."""

    number: int

    def __str__(self) -> str:
        return counted(self.number, "piece")


@dataclass(frozen=True)  # no slots: `value` is cached
class Ratio:
    """``left:right`` by weight, as lightener to developer; ``value`` is right over left."""

    left: Fraction
    right: Fraction

    @cached_property
    def value(self) -> Fraction:
        return self.right / self.left

    def __str__(self) -> str:
        return f"{plain(self.left)}:{plain(self.right)}"


@dataclass(frozen=True, slots=True)
class Span:
    """Whole numbers from ``low`` to ``high``, both included."""

    low: int
    high: int

    def __contains__(self, number: int | Fraction) -> bool:
        return self.low <= number <= self.high

    def __str__(self) -> str:
        return str(self.low) if self.low == self.high else f"{self.low}–{self.high}"


def plain(number: Fraction, places: int = 6) -> str:
    """A fraction as a decimal without trailing zeros, rounded half up to at most ``places``."""
    numerator, denominator = number.as_integer_ratio()
    if denominator == 1:
        return str(numerator)
    scale = 10**places
    whole, part = divmod((numerator * scale * 2 + denominator) // (2 * denominator), scale)
    tail = str(part).rjust(places, "0").rstrip("0")
    return f"{whole}.{tail}" if tail else str(whole)


def counted(number: int | Fraction | Span, noun: str, plural: str = "") -> str:
    """A number with its noun, plural unless it is one: ``1 part``, ``1.5 parts``, ``1–3 levels``."""
    one = number == 1 or (isinstance(number, Span) and number.low == number.high == 1)
    shown = plain(number) if isinstance(number, Fraction) else str(number)
    return f"{shown} {noun if one else plural or f'{noun}s'}"
