"""Drawings of sections on a head: triangles laid like bricks, and hair held out of its natural fall."""

from itertools import pairwise

from bowlbook.entries.drawn import Drawn
from bowlbook.pages.head_outline import BEHIND, SIDE
from bowlbook.pages.strokes import Field, Point, Shape, curved_arrow, polygon, segments


def _half_width(y: int) -> int:
    """Half of the width of the head from behind, where hair can be sectioned, at a height."""
    corners = ((60, 60), (100, 74), (140, 72), (176, 52), (214, 36))
    for (low, narrow), (high, wide) in pairwise(corners):
        if y <= high:
            return narrow + (wide - narrow) * (y - low) // (high - low)
    return corners[-1][1]


def bricks_field(drawn: Drawn) -> Field:
    """Triangles in rows at the back of the head, all as wide, each row half a base along from the last."""
    high = min(34, 144 // len(drawn.rows))
    heights = [206 - row * high for row in range(len(drawn.rows))]
    # A row is moved along by half a base where it would else stand as the one below.
    moved = [(row + count - drawn.rows[0]) % 2 for row, count in enumerate(drawn.rows)]
    rows = list(zip(heights, drawn.rows, moved, strict=True))
    half = min(_half_width(y) // (count + along) for y, count, along in rows)
    partings, triangles, falls = "", "", ""
    for row, (y, count, along) in enumerate(rows):
        start = 120 - half * count + (half if row % 4 < 2 else -half) * along
        partings += f"M{120 - _half_width(y)} {y}h{2 * _half_width(y)}"
        for x in range(start, start + 2 * half * count, 2 * half):
            triangles += f"M{x} {y}L{x + half} {y - high + 5}L{x + 2 * half} {y}Z"
            falls += f"M{x + half} {y - high + 12}V{y - 4}"
    shapes = [*BEHIND, ("thin", partings), ("section", triangles), ("fall", falls)]
    return Field(240, 280, tuple(Shape(*each) for each in shapes))


HELD: dict[str, tuple[Point, Point, Point, Point]] = {
    "forward": ((98, 28), (130, 19), (-78, -70), (-6, -92)),
    "back": ((144, 19), (176, 28), (76, -72), (8, -92)),
    "up": ((211, 84), (216, 116), (58, -74), (84, -6)),
    "down": ((216, 96), (211, 128), (56, 76), (84, 8)),
}
"""Over-direction: the two ends of the section at the scalp, how it is held, and straight out."""


def over_field(drawn: Drawn) -> Field:
    """A section held out of its fall with a comb; dashed as it would stand straight out."""
    one, other, held, straight = HELD[drawn.direction or "up"]

    def at(fourths: int, tenths: int, way: Point) -> Point:
        """So far across the section, and so far out along the strand."""
        x, y = ((other[n] - one[n]) * fourths // 4 + one[n] + way[n] * tenths // 10 for n in (0, 1))
        return x, y

    tips = [at(fourths, tenths, held) for fourths, tenths in ((4, 10), (3, 11), (2, 10), (1, 11), (0, 10))]
    (near, near_y), (far, far_y) = at(2, 16, straight), at(2, 16, held)
    teeth = ((at(n, 8, held), at(n, 6, held)) for n in range(-1, 5))
    tool = [at(-1, 8, held), at(-1, 9, held), at(5, 9, held), at(9, 8, held), at(5, 8, held)]
    shapes = (
        *(Shape(*each) for each in SIDE),
        Shape("dashed", polygon([one, at(0, 10, straight), at(4, 10, straight), other])),
        Shape("hair", polygon([one, other, *tips])),
        Shape("fall", segments((at(n, 0, held), at(n, 10, held)) for n in (1, 2, 3))),
        Shape("line", segments(teeth)),
        Shape("tool", polygon(tool)),
        curved_arrow(at(2, 11, straight), ((near + far) // 2, (near_y + far_y) // 2), at(2, 13, held)),
    )
    top = -110 if drawn.direction in ("forward", "back") else 0
    return Field(330, 276 - top, shapes, top=top)
