"""The underlying pigment that lifting exposes, and the pigment that neutralises it.

Common practice, no published source: schools differ in names and by a level either way.
"""

from typing import NamedTuple


class UnderlyingPigment(NamedTuple):
    """What a level shows before toning, and the toner's pigment that takes it away."""

    level: int
    shows: str
    countered_by: str


UNDERLYING = (
    UnderlyingPigment(1, "darkest red-brown", "green"),
    UnderlyingPigment(2, "dark red-brown", "green"),
    UnderlyingPigment(3, "red-brown", "green"),
    UnderlyingPigment(4, "red", "green"),
    UnderlyingPigment(5, "red-orange", "blue-green"),
    UnderlyingPigment(6, "orange", "blue"),
    UnderlyingPigment(7, "yellow-orange", "blue-violet"),
    UnderlyingPigment(8, "yellow", "violet"),
    UnderlyingPigment(9, "pale yellow", "violet"),
    UnderlyingPigment(10, "palest yellow", "pale violet"),
)


def underlying_at(level: int) -> UnderlyingPigment:
    """What hair lifted to ``level`` (1 to 10) shows, and what neutralises it."""
    return UNDERLYING[level - 1]


def neutralises(pigment: str, level: int) -> bool:
    """Whether a toner's pigment neutralises what hair lifted to ``level`` (1 to 10) shows.

    Within a level either way, by which schools differ: common practice, no published source.
    """
    # At level 1 there is no level below: a slice from -1 would be empty.
    near = UNDERLYING[max(level - 2, 0) : level + 1]
    return any(each.countered_by.removeprefix("pale ") == pigment for each in near)
