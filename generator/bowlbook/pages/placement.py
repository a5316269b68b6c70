"""Drawings of a placement, from an entry's words: what each is made of, in whole units of its own field.

Geometry only: the sentence for each is `bowlbook.wording.placement`. Classes say what a line is, and the
style sheet gives it its colour: in light, dark and forced colours, and on paper.
"""

from collections.abc import Iterable

from bowlbook.entries.drawn import Drawn
from bowlbook.entries.technique import Technique
from bowlbook.pages import strokes
from bowlbook.pages.drawing import Drawing, drawing_of
from bowlbook.pages.foil import folded_field, slice_field, two_foils_field, weaves_field
from bowlbook.pages.head import head_drawing
from bowlbook.pages.on_head import bricks_field, over_field
from bowlbook.wording.listing import both
from bowlbook.wording.placement import placement_words


def placement_drawing(drawn: Drawn, *, small: bool = False) -> Drawing:
    """The finished drawing and its words; ``small``: without words in it."""
    field = _FIELDS[drawn.shows](drawn)
    return drawing_of("placement", placement_words(drawn), field=field, small=small)


def emblem_of(technique: Technique) -> tuple[Drawing, str] | None:
    """What a technique is known by where it is named in short: a drawing, and a word or two for it.

    That is the first of its drawings, those of the whole before those of a step; else its sections on the
    head; else None.
    """
    first = min(technique.drawings, key=lambda each: each.step is not None, default=None)
    if first:
        return placement_drawing(first, small=True), first.shows
    head = head_drawing(technique.sections, (), f"head-{technique.id}", small=True)
    return (head, both(list(dict.fromkeys(each.taken_in for each in technique.sections)))) if head else None


def placement_drawings(drawings: Iterable[Drawn]) -> tuple[list[Drawing], dict[int, list[Drawing]]]:
    """The drawings of the whole, and by the number of the step those of a step."""
    whole: list[Drawing] = []
    of_step: dict[int, list[Drawing]] = {}
    for each in drawings:
        (whole if each.step is None else of_step.setdefault(each.step, [])).append(placement_drawing(each))
    return whole, of_step


def named_drawings(drawings: Iterable[Drawn], *, small: bool = False) -> list[tuple[str, Drawing]]:
    """All drawings, those of the whole first, then step by step: each with what it shows in a word or two."""
    in_order = sorted(drawings, key=lambda each: each.step or 0)
    names = [f"Step {each.step}: {each.shows}" if each.step else each.shows.capitalize() for each in in_order]
    return [(name, placement_drawing(each, small=small)) for name, each in zip(names, in_order, strict=True)]


def _surface(drawn: Drawn) -> strokes.Field:
    painted = strokes.painted_from(54, 186, 66, 128, 196, drawn.points or 1)
    shapes = (
        *strokes.parting(4, 236, 0),
        *strokes.hanging_hair(50, 190, 24, 196, 4),
        painted,
        *strokes.brush(146, 92),
    )
    return strokes.Field(240, 200, shapes)


def _pocket(_: Drawn) -> strokes.Field:
    shapes = (
        *strokes.head_edge(58, 82, 114),
        strokes.Shape("hair", "M54 82Q140 74 204 86L226 95L218 100L230 107L214 110Q134 122 54 114Z"),
        strokes.Shape("fall", "M64 106Q134 112 206 104M64 99Q134 102 186 98M64 92Q100 91 140 91"),
        strokes.Shape("mix", "M88 79Q150 76 204 86L226 95L218 100L230 107Q170 88 88 79Z"),
        *strokes.brush(160, 68),
    )
    labels = (
        strokes.Label(118, 48, "lightener on top"),
        strokes.Label(150, 142, "left dark beneath"),
        strokes.Label(32, 104, "scalp"),
    )
    return strokes.Field(240, 200, shapes, labels)


def _tipped(_: Drawn) -> strokes.Field:
    shapes = strokes.parting(4, 236, 0)
    for strand in range(5):
        x, low = 30 + strand * 36, 194 - (0, 14, 5)[strand % 3]
        begin = low - 40
        tip = f"{x + 25} {low - 8}l-3 8l-5-7l-5 5l-4-7"
        hair = f"M{x} 24h36C{x + 38} 100 {x + 32} 150 {tip}C{x + 4} 150 {x - 2} 100 {x} 24Z"
        fall = f"M{x + 9} 32Q{x + 8} 100 {x + 12} {begin - 20}M{x + 18} 32V{begin - 16}"
        fall += f"M{x + 27} 32Q{x + 28} 100 {x + 24} {begin - 20}"
        points = "q4-2 6-18q3 18 7 19q4-1 7-19q1 16 4 18"
        mix = f"M{x + 6} {begin}{points}Q{x + 28} {begin + 18} {tip}Q{x + 8} {begin + 18} {x + 6} {begin}Z"
        shapes += [strokes.Shape("hair", hair), strokes.Shape("fall", fall), strokes.Shape("mix", mix)]
    return strokes.Field(240, 200, tuple(shapes))


def _backcombed(drawn: Drawn) -> strokes.Field:
    share = float(drawn.backcomb or 0) / 100
    half = max(6, round(60 * (1 - share)))
    shapes = (
        *strokes.parting(4, 236, 0),
        *strokes.hanging_hair(120 - half, 120 + half, 30, 206, round(8 * (1 - share))),
        *strokes.cushion(120, 62 + round(8 * share), 26, 32 + round(84 * share)),
        *strokes.comb(72, 168, 146),
        strokes.curved_arrow((30, 156), (28, 130), (30, 100)),
    )
    return strokes.Field(240, 210, shapes)


_FIELDS = {
    "slice": slice_field,
    "weaves": weaves_field,
    "brick-laid triangles": bricks_field,
    "painted surface": _surface,
    "pocket of depth": _pocket,
    "tipped ends": _tipped,
    "triangle in two foils": two_foils_field,
    "backcombing": _backcombed,
    "over-direction": over_field,
    "folding": folded_field,
}
