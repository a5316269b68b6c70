"""Drawings of a placement, from an entry's words: what each is made of, in whole units of its own field.

Geometry only: the sentence for each is `bowlbook.wording.placement`. Classes say what a line is, and the
style sheet gives it its colour: in light, dark and forced colours, and on paper.
"""

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from bowlbook.entries.drawn import WEAVES, Drawn
from bowlbook.pages.drawing import Drawing
from bowlbook.pages.head_outline import BEHIND, SIDE
from bowlbook.pages.render import finished, render
from bowlbook.pages.strokes import (
    SCALP,
    Point,
    Shape,
    curved_arrow,
    cushion,
    flat_foil,
    hanging_hair,
    painted_from,
    polygon,
    segments,
    tips,
)
from bowlbook.wording.placement import placement_words


class DrawnWord(NamedTuple):
    """A word in the drawing, its middle at ``x``."""

    x: int
    y: int
    text: str


class Field(NamedTuple):
    """What one drawing is made of, drawn in this order; its size in units, and where it begins."""

    width: int
    height: int
    shapes: tuple[Shape, ...]
    labels: tuple[DrawnWord, ...] = ()
    top: int = 0


def placement_drawing(drawn: Drawn) -> Drawing:
    """The finished drawing and its words."""
    words = placement_words(drawn)
    field = _FIELDS[drawn.shows](drawn)
    return Drawing(finished(render("drawings/placement.svg", "", field=field, words=words)), words)


def placement_drawings(drawings: Iterable[Drawn]) -> tuple[list[Drawing], dict[int, list[Drawing]]]:
    """The drawings of the whole, and by the number of the step those of a step."""
    whole: list[Drawing] = []
    of_step: dict[int, list[Drawing]] = {}
    for each in drawings:
        (whole if each.step is None else of_step.setdefault(each.step, [])).append(placement_drawing(each))
    return whole, of_step


def _surface(drawn: Drawn) -> Field:
    painted = painted_from(56, 184, 62, 122, 194, drawn.points or 1)
    return Field(240, 200, (*SCALP, *hanging_hair(50, 190, 26, 194), painted))


def _pocket(_: Drawn) -> Field:
    return Field(
        240,
        200,
        (
            Shape("skin", "M4 4H44Q66 96 40 196H4Z"),
            Shape("line", "M44 4Q66 96 40 196"),
            Shape("depth", "M55 66Q140 70 214 96L220 104L208 112Q140 132 56 128Q60 98 55 66Z"),
            Shape("thin", "M58 112Q130 112 196 104M59 98Q130 98 190 98M58 84Q130 86 180 94"),
            Shape("mix", "M84 65Q144 66 216 92L222 104L206 106Q150 86 84 69Z"),
            Shape("hair", "M55 62Q70 62 86 65L84 71Q70 69 55 69Z"),
        ),
        (
            DrawnWord(160, 54, "lightener on top"),
            DrawnWord(146, 156, "left dark beneath"),
            DrawnWord(24, 104, "scalp"),
        ),
    )


def _tipped(_: Drawn) -> Field:
    shapes = [*SCALP]
    for strand in range(5):
        left = 32 + strand * 38
        low = 184 + (0, 8, 3)[strand % 3]
        middle, begin = left + 12, low - 42
        side = f"Q{left + 25} 120 {middle} {low}Q{left - 1} 120 {left} 28Z"
        falls = f"M{left + 8} 32Q{left + 8} 110 {left + 11} {begin - 4}"
        falls += f"M{left + 16} 32Q{left + 16} 110 {left + 13} {begin - 4}"
        tip = f"M{left + 5} {begin}L{middle} {begin - 12}L{left + 19} {begin}"
        tip += f"Q{left + 16} {low - 16} {middle} {low}Q{left + 8} {low - 16} {left + 5} {begin}Z"
        shapes += [Shape("hair", f"M{left} 28L{left + 24} 28{side}"), Shape("fall", falls), Shape("mix", tip)]
    return Field(240, 200, tuple(shapes))


def _backcombed(drawn: Drawn) -> Field:
    kept = 1 - float(drawn.backcomb or 0) / 100
    half = max(8, round(60 * kept))
    return Field(
        240,
        200,
        (
            *SCALP,
            Shape("dashed", "M60 30L68 190M180 30L172 190"),
            *hanging_hair(120 - half, 120 + half, 60, 194, round(8 * kept)),
            *cushion(60, 180, 26, 26 + round(60 * (0.4 + float(drawn.backcomb or 0) / 125))),
            curved_arrow((40, 168), (34, 140), (40, 112), ((32, 122), (48, 122))),
            curved_arrow((200, 168), (206, 140), (200, 112), ((192, 122), (208, 122))),
        ),
    )


def _half_in_foil(left: int, share: float, ends_only: bool) -> list[Shape]:
    """Half of a triangle in its foil, 130 wide: cushion, what hangs of it, and where the lightener is."""
    middle = left + 65
    half = max(7, round(40 * (1 - share)))
    below = 136 + round(22 * (0.4 + share))
    shapes = [*flat_foil(left, 112, 130, 124), *hanging_hair(middle - half, middle + half, below - 8, 228, 2)]
    if ends_only:
        painted = painted_from(middle - half - 5, middle + half + 5, 184, 198, 232, 1)
    else:
        painted = painted_from(
            middle - half - 1, middle + half + 1, below, below + 26, 231, 2 if half > 12 else 1
        )
    return [*shapes, painted, *cushion(middle - 40, middle + 40, 104, below)]


def _two_foils(drawn: Drawn) -> Field:
    above, below = float(drawn.backcomb or 0) / 100, float(drawn.backcomb_below or 0) / 100
    return Field(
        300,
        244,
        (
            Shape("hair", "M150 6L206 84H94Z"),
            Shape(
                "fall",
                "M150 16V44M140 26V44M160 26V44M112 80L116 54M128 80V54M144 80V54M160 80V54M176 80V54",
            ),
            Shape("part", "M114 49H186"),
            curved_arrow((122, 30), (70, 34), (66, 96), ((58, 84), (74, 84))),
            curved_arrow((204, 70), (236, 70), (236, 96), ((228, 84), (244, 84))),
            *_half_in_foil(6, above, False),
            *_half_in_foil(164, below, True),
        ),
        (DrawnWord(58, 22, "upper half"), DrawnWord(248, 56, "lower half")),
    )


PITCH = {"fine": 8, "medium": 15, "bold": 30}
"""Units from one strand of a weave to the next."""


def _slice(_: Drawn) -> Field:
    above = [((x, 6), (x, 44)) for x in range(30, 220, 10)]
    fall = [((x, 58), (x, 128)) for x in range(38, 208, 7)]
    return Field(
        240,
        200,
        (
            Shape("hair", "M18 4H222V48H18Z"),
            Shape("fall", segments(above)),
            *flat_foil(26, 64, 188, 130),
            Shape("hair", polygon([(34, 50), (206, 50), *tips(34, 206, 188)])),
            Shape("fall", segments(fall)),
            Shape("mix", polygon([(34, 84), (206, 84), *tips(34, 206, 188)])),
            Shape("part", "M14 48H226"),
            Shape("thin", "M14 56H34M206 56H226"),
        ),
    )


def _woven_row(top: int, size: str) -> list[Shape]:
    """One row of a weave: the zigzag of the comb, and on a foil only what it lifted."""
    pitch = PITCH[size]
    left, right = 62, 226
    count = (right - left) // pitch
    zigzag = f"M{left} {top + 12}" + f"l{pitch - pitch // 2} -10l{pitch // 2} 10" * count
    wide = max(3, pitch // 2)
    strands = [left + pitch * n + (pitch - wide) // 2 for n in range(count)]
    hair = "".join(f"M{x} {top + 6}h{wide}v52l{-wide // 2} 8l{wide // 2 - wide} -8Z" for x in strands)
    mix = "".join(f"M{x} {top + 26}h{wide}v32l{-wide // 2} 8l{wide // 2 - wide} -8Z" for x in strands)
    return [
        *flat_foil(left - 6, top + 16, right - left + 12, 56),
        Shape("hair", hair),
        Shape("mix", mix),
        Shape("zigzag", zigzag),
    ]


def _weaves(drawn: Drawn) -> Field:
    back, front = WEAVES.index(drawn.at_back or "fine"), WEAVES.index(drawn.at_front or "fine")
    between = range(back, front, 1 if front > back else -1)
    sizes = [*(WEAVES[each] for each in between), WEAVES[front]]
    shapes = [shape for row, size in enumerate(sizes) for shape in _woven_row(4 + row * 80, size)]
    ends = ["back", *[""] * (len(sizes) - 2), "front"] if len(sizes) > 1 else ["all over"]
    labels = [DrawnWord(28, 44 + row * 80, text) for row, text in enumerate(ends) if text]
    labels += [DrawnWord(28, 60 + row * 80, size) for row, size in enumerate(sizes)]
    return Field(240, 80 * len(sizes), tuple(shapes), tuple(labels))


def _half_width(y: int) -> int:
    """Half of the width of the head from behind, where hair can be sectioned, at a height."""
    corners = ((60, 60), (100, 74), (140, 72), (176, 52), (214, 36))
    for (low, narrow), (high, wide) in pairwise(corners):
        if y <= high:
            return narrow + (wide - narrow) * (y - low) // (high - low)
    return corners[-1][1]


def _bricks(drawn: Drawn) -> Field:
    high = min(37, 150 // len(drawn.rows))
    partings, triangles = [], []
    for row, count in enumerate(drawn.rows):
        y = 212 - row * high
        half = _half_width(y)
        base = 4 * half // (2 * count + 1)
        start = 120 - half + (base // 2 if row % 2 else 0)
        partings.append(f"M{120 - half - 6} {y}H{120 + half + 6}")
        corners = range(start, start + base * count, base)
        triangles += [f"M{x} {y}L{x + base // 2} {y - high + 5}L{x + base} {y}Z" for x in corners]
    shapes = [Shape(*each) for each in BEHIND]
    return Field(240, 280, (*shapes, Shape("thin", "".join(partings)), Shape("mix", "".join(triangles))))


HELD: dict[str, tuple[str, str, str, tuple[Point, Point, Point], tuple[Point, Point]]] = {
    "forward": (
        "M98 28L128 20L58 -58L28 -36Z",
        "M108 25L38 -44M118 23L48 -50",
        "M98 28L90 -58M128 20L132 -62",
        ((110, -60), (92, -78), (66, -66)),
        ((74, -75), (78, -57)),
    ),
    "back": (
        "M146 20L176 30L246 -34L216 -56Z",
        "M156 23L226 -48M166 26L236 -42",
        "M146 20L142 -62M176 30L182 -58",
        ((162, -60), (182, -78), (208, -66)),
        ((196, -75), (198, -57)),
    ),
    "up": (
        "M212 88L216 116L286 52L266 30Z",
        "M213 98L273 37M214 107L280 45",
        "M212 88L296 82M216 116L296 122",
        ((290, 102), (298, 80), (286, 60)),
        ((296, 68), (282, 72)),
    ),
    "down": (
        "M216 98L212 126L264 186L284 164Z",
        "M215 108L278 171M213 117L271 178",
        "M216 98L296 92M212 126L296 132",
        ((290, 112), (298, 132), (286, 152)),
        ((296, 144), (281, 141)),
    ),
}
"""Over-direction: the strand as it is held, its lines, dashed straight out, the arrow and its barbs."""


def _over(drawn: Drawn) -> Field:
    strand, fall, straight, (start, bend, end), barbs = HELD[drawn.direction or "up"]
    shapes = (
        *(Shape(*each) for each in SIDE),
        Shape("dashed", straight),
        Shape("hair", strand),
        Shape("fall", fall),
        curved_arrow(start, bend, end, barbs),
    )
    top = -84 if drawn.direction in ("forward", "back") else 12
    return Field(300, 266 - top, shapes, top=top)


def _folded(drawn: Drawn) -> Field:
    folds, direction = drawn.folds or 1, drawn.direction or "up"
    lying = direction in ("forward", "back")
    parts = folds + 1
    shapes = [
        *flat_foil(16, 34, 108, 156),
        *hanging_hair(44, 96, 8, 176),
        painted_from(46, 94, 52, 84, 176, 2),
    ]
    if lying:
        lines = [((16 + 108 * n // parts, 34), (16 + 108 * n // parts, 190)) for n in range(1, parts)]
        packet = (108 // parts, 156)
        start, end = ((118, 200), (40, 200)) if direction == "forward" else ((22, 200), (100, 200))
        back = 10 if direction == "forward" else -10
        arrow = curved_arrow(
            start, (70, 224), end, ((end[0] + back, end[1] - 4), (end[0] + back, end[1] + 11))
        )
    else:
        lines = [((16, 34 + 156 * n // parts), (124, 34 + 156 * n // parts)) for n in range(1, parts)]
        packet = (108, 156 // parts)
        start, end = ((132, 184), (132, 60)) if direction == "up" else ((132, 40), (132, 160))
        back = 10 if direction == "up" else -10
        arrow = curved_arrow(
            start, (158, 112), end, ((end[0] - 4, end[1] + back), (end[0] + 11, end[1] + back))
        )
    left, top = 222 - packet[0] // 2, 34
    edges = range(5, 5 * folds + 1, 5)
    if lying:
        layers = "".join(f"M{left + n} {top + 4}v{packet[1] - 8}" for n in edges)
    else:
        layers = "".join(f"M{left + 4} {top + n}h{packet[0] - 8}" for n in edges)
    shapes += [
        Shape("dashed", segments(lines)),
        arrow,
        *hanging_hair(206, 238, 8, 52, 0),
        Shape("foil", f"M{left} {top}h{packet[0]}v{packet[1]}h{-packet[0]}Z"),
        Shape("edge", layers),
    ]
    return Field(290, 226 if lying else 198, tuple(shapes), (DrawnWord(222, top + packet[1] + 18, "folded"),))


_FIELDS = {
    "slice": _slice,
    "weaves": _weaves,
    "brick-laid triangles": _bricks,
    "painted surface": _surface,
    "pocket of depth": _pocket,
    "tipped ends": _tipped,
    "triangle in two foils": _two_foils,
    "backcombing": _backcombed,
    "over-direction": _over,
    "folding": _folded,
}
