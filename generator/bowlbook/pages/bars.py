"""Bars and dots of the reports: texts, and lengths in per cent that a template writes as attributes of SVG.

What is drawn stands in the row of a table, between a name and the figure itself: nothing is said by a drawing
alone.
"""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.pages.pagination import MOST

SEEN = 10
"""How many bars stand open; the others are in a fold."""


BarPart = tuple[str, str, str]
"""A part of a bar: its kind (the class that colours it), where it starts, and how long it is."""


class Bar(NamedTuple):
    """A row: a link, the figure, what else must be known of it, and the bar."""

    name: str
    href: str
    answer: str
    note: str
    parts: tuple[BarPart, ...]


class Bars(NamedTuple):
    """Sorted bars: ``seen`` open, ``more`` folded under a line that says what is in it.

    ``legend``: each kind of part with its word. ``remark``: what is not drawn.
    """

    title: str
    anchor: str
    legend: tuple[tuple[str, str], ...]
    seen: tuple[Bar, ...]
    more: tuple[Bar, ...]
    more_says: str
    remark: str


class BarRow(NamedTuple):
    """What a bar is made from: ``amounts`` in the order of the legend, in any one unit."""

    name: str
    href: str
    answer: str
    note: str
    amounts: tuple[int, ...]


def bars_of(
    title: str, anchor: str, legend: Sequence[tuple[str, str]], rows: Iterable[BarRow], remark: str = ""
) -> Bars:
    """Bars in order of their sums, the largest first and as long as the column; names break ties.

    At most `MOST` are drawn.
    """
    found = sorted(rows, key=lambda row: (-sum(row.amounts), row.name.casefold()))
    longest = max((sum(row.amounts) for row in found), default=0)
    drawn = tuple(_bar(row, legend, longest) for row in found[:MOST])
    more = drawn[SEEN:]
    says = f"{more[0].answer} to {more[-1].answer}" if more else ""
    if len(found) > MOST:
        remark = f"{remark} Drawn are the {MOST} longest of {len(found)}.".strip()
    return Bars(title, anchor, tuple(legend), drawn[:SEEN], more, says, remark)


def _bar(row: BarRow, legend: Sequence[tuple[str, str]], longest: int) -> Bar:
    parts, start = [], 0
    for (kind, _), amount in zip(legend, row.amounts, strict=True):
        if amount:
            # From one rounded end to the next, so that parts meet and equal sums end alike.
            width = _tenths(start + amount, longest) - _tenths(start, longest)
            parts.append((kind, percent(start, longest), f"{width / 10:g}%"))
        start += amount
    return Bar(row.name, row.href, row.answer, row.note, tuple(parts))


def percent(value: Fraction | int, whole: Fraction | int) -> str:
    """A length as ``37.5%`` of the column, to 0.1, half to even: nothing is read off it."""
    return f"{_tenths(value, whole) / 10:g}%"


def _tenths(value: Fraction | int, whole: Fraction | int) -> int:
    return round(Fraction(value) * 1000 / whole)
