"""What drawings of a placement are made from: hair, backcombed hair, lightener, foil, tools, arrows.

Geometry only, in whole units. A shape's look says what it is; the style sheet gives it its colour.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

Point = tuple[int, int]


class Shape(NamedTuple):
    """One path. ``look``: what it is (line, hair, mix, foil …), after which its style is named."""

    look: str
    d: str


class Label(NamedTuple):
    """A word in the drawing, its middle at ``x``."""

    x: int
    y: int
    text: str


class Field(NamedTuple):
    """What one drawing is made of, drawn in this order; its size in units, and where it begins."""

    width: int
    height: int
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...] = ()
    top: int = 0


def segments(points: Iterable[tuple[Point, Point]]) -> str:
    """Straight lines, each from one point to another."""
    return "".join(f"M{x} {y}L{u} {v}" for (x, y), (u, v) in points)


def polygon(points: Sequence[Point]) -> str:
    """A closed outline through these points."""
    return "M" + "L".join(f"{x} {y}" for x, y in points) + "Z"


def curved_arrow(start: Point, bend: Point, end: Point) -> Shape:
    """An arrow along a curve that leaves its start, and reaches its end, in the direction of ``bend``."""
    along, down = end[0] - bend[0], end[1] - bend[1]
    length = max(1, round((along**2 + down**2) ** 0.5))
    back, aside = (-11 * along // length, -11 * down // length), (7 * down // length, -7 * along // length)
    barbs = (
        f"M{end[0] + back[0] + aside[0]} {end[1] + back[1] + aside[1]}L{end[0]} {end[1]}"
        f"L{end[0] + back[0] - aside[0]} {end[1] + back[1] - aside[1]}"
    )
    return Shape("arrow", f"M{start[0]} {start[1]}Q{bend[0]} {bend[1]} {end[0]} {end[1]}{barbs}")


def parting(left: int, right: int, top: int) -> list[Shape]:
    """A parting 30 high: hair combed up above it, the scalp in it. A section hangs from ``top`` + 24."""
    up = segments(((x, top + 2), (x, top + 19)) for x in range(left + 12, right - 4, 22))
    return [
        Shape("cloud", f"M{left} {top}H{right}V{top + 22}H{left}Z"),
        Shape("fall", up),
        Shape("skin", f"M{left} {top + 21}H{right}V{top + 30}H{left}Z"),
    ]


def ends(left: int, right: int, bottom: int) -> str:
    """The lower edge of hanging hair, drawn on from its right end to its left: soft, uneven points."""
    locks = max(2, (right - left) // 10)
    edge = ""
    for lock in range(locks):
        x = right - (right - left) * lock // locks
        after = right - (right - left) * (lock + 1) // locks
        tip, low = (x + after) // 2, bottom - (0, 4, 1, 6)[lock % 4]
        edge += f"Q{x - 1} {low - 4} {tip} {low}Q{after + 1} {low - 4} {after} {bottom - 11}"
    return edge


def hanging_hair(left: int, right: int, top: int, bottom: int, narrower: int = 8) -> list[Shape]:
    """Hair that hangs from a line: its outline and the lines of its fall."""
    low, high = left + narrower, right - narrower
    count = max(2, (right - left) // 11)
    falls = [
        (
            (left + (right - left) * n // count, top + 2),
            (low + (high - low) * n // count, bottom - 20 - n % 3 * 6),
        )
        for n in range(1, count)
    ]
    outline = f"M{left} {top}L{right} {top}L{high} {bottom - 11}{ends(low, high, bottom)}Z"
    return [Shape("hair", outline), Shape("fall", segments(falls))]


def cushion(middle: int, half: int, top: int, bottom: int) -> list[Shape]:
    """Backcombed hair at the root: a cloud of loops, fullest at the root."""
    high = bottom - top
    low, left, right = top + high // 2, middle - half, middle + half
    cloud = (
        f"M{left + 6} {top}H{right - 6}"
        f"C{right + 12} {low} {middle + half // 2} {bottom} {middle} {bottom}"
        f"C{middle - half // 2} {bottom} {left - 12} {low} {left + 6} {top}Z"
    )
    loops = ""
    for row, y in enumerate(range(top + 5, bottom - 4, 9)):
        # Narrower by row, as the cloud is.
        wide = half - half * (y - top) ** 2 // (high**2 + 1)
        for n, x in enumerate(range(middle - wide, middle + wide - 8, 13)):
            loops += f"M{x + row % 2 * 5} {y + n % 3 * 2}c6-{8 + n % 2 * 3} 15-3 9 4s-12 4-5-3"
    return [Shape("cloud", cloud), Shape("tangle", loops)]


def painted_from(left: int, right: int, high: int, low: int, bottom: int, points: int) -> Shape:
    """Lightener that begins in points at ``high``, is whole from ``low`` on, and covers the ends."""
    wide = (right - left) // points
    reach = (low - high) * 2 // 5
    edge = f"M{left} {low}"
    for point in range(points):
        x = left + wide * point
        middle, after = x + wide // 2, right if point == points - 1 else x + wide
        edge += f"C{x + wide // 4} {low - 8} {middle - wide // 12} {high + reach} {middle} {high}"
        edge += f"C{middle + wide // 12} {high + reach} {after - wide // 4} {low - 8} {after} {low}"
    return Shape("mix", f"{edge}V{bottom - 11}{ends(left, right, bottom)}Z")


def flat_foil(left: int, top: int, wide: int, high: int) -> Shape:
    """A flat foil, its upper edge folded over."""
    return Shape("foil", f"M{left} {top}h{wide}v{high}h{-wide}ZM{left} {top + 6}h{wide}")


def comb(left: int, right: int, top: int) -> list[Shape]:
    """A tail comb that pushes up: its teeth above, its tail to the right."""
    teeth = segments(((x, top), (x, top - 13)) for x in range(left + 3, right, 6))
    return [
        Shape("thin", teeth),
        Shape("tool", f"M{left} {top}H{right}L{right + 40} {top + 3}v2L{right} {top + 8}H{left}Z"),
    ]


def brush(x: int, y: int) -> list[Shape]:
    """A tint brush laid flat: its bristles end at the hair from a point on, its handle is up right."""
    return [
        Shape("hair", f"M{x} {y}l20 12l12-20l-20-12Z"),
        Shape("fall", f"M{x + 6} {y + 1}l9-15M{x + 12} {y + 5}l9-15"),
        Shape("tool", f"M{x + 10} {y - 21}l24 14l5-9l-8-4l24-40l-7-4l-24 40l-9-6Z"),
    ]


def head_edge(x: int, above: int, below: int) -> list[Shape]:
    """The head cut off at the left, its hair near ``x``, 200 high; a section leaves it between heights."""
    scalp = f"M{x - 34} 0Q{x + 20} 100 {x - 34} 200"
    hair = f"{scalp}H{x - 16}Q{x + 40} 100 {x - 16} 0Z"
    partings = f"M{x - 8} {above - 6}h20v7h-20ZM{x - 8} {below - 1}h20v7h-20Z"
    fall = f"M{x - 22} 10Q{x + 2} 50 {x + 4} {above - 12}M{x - 22} 190Q{x + 2} 150 {x + 4} {below + 12}"
    return [
        Shape("skin", f"{scalp}H{x - 46}V0Z"),
        Shape("hair", hair),
        Shape("fall", fall),
        Shape("skin", partings),
    ]
