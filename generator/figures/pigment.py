"""The underlying pigment that lifting lays bare, and the tone that counters it.

Common practice, no published source: schools differ in names and by a level either way.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class UnderlyingPigment:
    """What a level shows before toning, and the toner's pigment that takes it away."""

    level: int
    shows: str
    countered_by: str


UNDERLYING = tuple(
    UnderlyingPigment(level, shows, counter)
    for level, shows, counter in (
        (1, "darkest red-brown", "green"),
        (2, "dark red-brown", "green"),
        (3, "red-brown", "green"),
        (4, "red", "green"),
        (5, "red-orange", "blue-green"),
        (6, "orange", "blue"),
        (7, "yellow-orange", "blue-violet"),
        (8, "yellow", "violet"),
        (9, "pale yellow", "violet"),
        (10, "palest yellow", "pale violet"),
    )
)


def underlying_at(level: int) -> UnderlyingPigment:
    """What hair lifted to ``level`` (1 to 10) shows, and what counters it."""
    return UNDERLYING[level - 1]
