"""What drawings of a placement are made from: hair that hangs, backcombed hair, lightener, foil, arrows.

Geometry only, in whole units. A shape's look says what it is; the style sheet gives it its colour.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

Point = tuple[int, int]


class Shape(NamedTuple):
    """One path. ``look``: what it is (line, hair, mix, foil …), after which its style is named."""

    look: str
    d: str


def segments(points: Iterable[tuple[Point, Point]]) -> str:
    """Straight lines, each from one point to another."""
    return "".join(f"M{x} {y}L{u} {v}" for (x, y), (u, v) in points)


def polygon(points: Sequence[Point]) -> str:
    """A closed outline through these points."""
    return "M" + "L".join(f"{x} {y}" for x, y in points) + "Z"


def curved_arrow(start: Point, bend: Point, end: Point, head: tuple[Point, Point]) -> Shape:
    """An arrow along a curve; ``head``: the two ends of its barbs."""
    barbs = f"M{head[0][0]} {head[0][1]}L{end[0]} {end[1]}L{head[1][0]} {head[1][1]}"
    curve = f"M{start[0]} {start[1]}Q{bend[0]} {bend[1]} {end[0]} {end[1]}"
    return Shape("arrow", curve + barbs)


SCALP = (
    Shape("skin", "M4 34Q120 14 236 34V4H4Z"),
    Shape("part", "M4 34Q120 14 236 34"),
)
"""The scalp above a section that hangs from it, 240 wide."""


def tips(left: int, right: int, bottom: int, depth: int = 12) -> list[Point]:
    """The lower edge of hanging hair from right to left: it ends in strands of uneven length."""
    strands = max(2, (right - left) // 22)
    edge: list[Point] = []
    for strand in range(strands):
        x = right - (right - left) * strand // strands
        after = right - (right - left) * (strand + 1) // strands
        edge += [(x, bottom - depth), ((x + after) // 2, bottom - (0, 5, 2)[strand % 3])]
    return [*edge, (left, bottom - depth)]


def hanging_hair(left: int, right: int, top: int, bottom: int, narrower: int = 8) -> list[Shape]:
    """Hair that hangs from a line: its outline and the lines of its fall."""
    low, high = left + narrower, right - narrower
    count = max(2, (right - left) // 11)
    falls = [
        (
            (left + (right - left) * n // count, top + 2),
            (low + (high - low) * n // count, bottom - 14 - n % 3 * 6),
        )
        for n in range(1, count)
    ]
    return [
        Shape("hair", polygon([(left, top), (right, top), *tips(low, high, bottom)])),
        Shape("fall", segments(falls)),
    ]


def cushion(left: int, right: int, top: int, bottom: int) -> list[Shape]:
    """Backcombed hair at the root: matted lines that cross, and stray hairs at its edge."""
    middle, wide, high = (left + right) // 2, right - left, bottom - top
    outline = (
        f"M{left + 8} {top}H{right - 8}"
        f"C{right + 12} {top + high // 3} {right + 8} {bottom - 4} {right - 10} {bottom}"
        f"Q{middle} {bottom + 10} {left + 10} {bottom}"
        f"C{left - 8} {bottom - 4} {left - 12} {top + high // 3} {left + 8} {top}Z"
    )
    step = max(6, wide // 8)
    matted = []
    for row, y in enumerate(range(top + 6, bottom + 3, 5)):
        start, lift = left + 4 + row % 3 * 3, (7, -6, 5, -8)[row % 4]
        waves = (right - 3 - start) // step - 1
        matted.append(f"M{start} {y}q{step // 2} {lift} {step} 1" + f"t{step} -1" * waves)
    stray = segments(
        [
            ((left + 2, bottom - 6), (left - 9, bottom + 3)),
            ((right - 2, bottom - 8), (right + 9, bottom)),
            ((left, (top + bottom) // 2), (left - 8, (top + bottom) // 2 - 5)),
            ((right, (top + bottom) // 2), (right + 8, (top + bottom) // 2 - 6)),
            ((middle - wide // 5, bottom), (middle - wide // 4, bottom + 8)),
        ]
    )
    return [Shape("hair", outline), Shape("tangle", "".join(matted) + stray)]


def painted_from(left: int, right: int, high: int, low: int, bottom: int, points: int) -> Shape:
    """Lightener that begins in points at ``high``, is whole from ``low`` on, and covers the ends."""
    wide = (right - left) // points
    edge = f"M{left} {low}"
    for point in range(points):
        x = left + wide * point
        middle, after = x + wide // 2, right if point == points - 1 else x + wide
        edge += f"C{x + wide // 4} {low - 8} {middle - 4} {high + 24} {middle} {high}"
        edge += f"C{middle + 4} {high + 24} {after - wide // 4} {low - 8} {after} {low}"
    return Shape("mix", edge + "L" + "L".join(f"{x} {y}" for x, y in tips(left + 2, right - 2, bottom)) + "Z")


def flat_foil(left: int, top: int, wide: int, high: int) -> list[Shape]:
    """A flat foil, its lower right corner turned up."""
    right, low = left + wide, top + high
    return [
        Shape("foil", f"M{left} {top}H{right}V{low - 12}L{right - 12} {low}H{left}Z"),
        Shape("edge", f"M{right} {low - 12}H{right - 12}V{low}"),
    ]
