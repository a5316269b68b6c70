"""Drawings of hair in foil: a slice, weaves, a triangle in two foils, and how a foil is folded."""

from bowlbook.entries.drawn import WEAVES, Drawn
from bowlbook.pages.strokes import (
    Field,
    Label,
    Shape,
    curved_arrow,
    cushion,
    ends,
    flat_foil,
    hanging_hair,
    head_edge,
    painted_from,
    parting,
    segments,
)

PITCH = {"fine": 9, "medium": 18, "bold": 40}
"""Units from one strand of a weave to the next."""


def slice_field(_: Drawn) -> Field:
    """A slice on its foil; beside it from the side, as the one thin layer that it is."""
    shapes = (
        *parting(4, 196, 0),
        flat_foil(16, 34, 168, 162),
        *hanging_hair(30, 170, 26, 188, 0),
        painted_from(30, 170, 50, 62, 188, 10),
        # Seen from the side: one thin layer on its foil, between the hair above and the hair below.
        *head_edge(258, 86, 94),
        Shape("edge", "M270 100L316 132"),
        Shape("hair", "M256 87L262 87L316 120L312 127L256 93Z"),
        Shape("mix", "M278 97L316 120L312 127L274 104Z"),
    )
    return Field(322, 222, shapes, (Label(270, 218, "from the side"), Label(300, 150, "foil")))


def _woven_row(top: int, size: str) -> list[Shape]:
    """One row of a weave: what the comb lifted on its foil; the hair between falls behind the foil."""
    pitch, left, right = PITCH[size], 66, 228
    count = (right - left) // pitch
    wide = pitch // 2
    gap = pitch - wide
    start = left + (right - left - pitch * count + gap) // 2
    strands = range(start, start + pitch * count, pitch)
    narrow = max(1, wide // 6)
    tip = f"V{top + 64}l{-narrow} 8l{narrow - wide // 2} 3l{wide // 2 + narrow - wide}-3l{-narrow}-8Z"
    hair = "".join(f"M{x} {top + 16}h{wide}{tip}" for x in strands)
    mix = "".join(f"M{x} {top + 46}L{x + wide // 2} {top + 32}L{x + wide} {top + 46}{tip}" for x in strands)
    up, down = f"q{wide // 2}-12 {wide} 0", f"q{gap // 2} 8 {gap} 0"
    zigzag = f"M{start} {top + 16}{(up + down) * (count - 1)}{up}"
    return [
        Shape("hair", f"M{left} {top + 2}H{right}V{top + 82}{ends(left, right, top + 92)}Z"),
        Shape("fall", segments(((x, top + 4), (x, top + 80)) for x in range(left + 8, right, 9))),
        flat_foil(left - 8, top + 22, right - left + 16, 56),
        Shape("hair", hair),
        Shape("mix", mix),
        Shape("zigzag", zigzag),
    ]


def weaves_field(drawn: Drawn) -> Field:
    """Weaves from the back down to the front, a row for each size from the first to the last."""
    back, front = WEAVES.index(drawn.at_back or "fine"), WEAVES.index(drawn.at_front or "fine")
    between = range(back, front, 1 if front > back else -1)
    sizes = [*(WEAVES[each] for each in between), WEAVES[front]]
    shapes = [shape for row, size in enumerate(sizes) for shape in _woven_row(4 + row * 102, size)]
    places = ["back", *[""] * (len(sizes) - 2), "front"] if len(sizes) > 1 else ["all over"]
    labels = [Label(28, 44 + row * 102, text) for row, text in enumerate(places) if text]
    labels += [Label(28, 60 + row * 102, size) for row, size in enumerate(sizes)]
    return Field(240, 102 * len(sizes), tuple(shapes), tuple(labels))


def _half_in_foil(left: int, share: float, ends_only: bool) -> list[Shape]:
    """Half of a triangle in its foil, 130 wide: cushion, what hangs of it, and where the lightener is."""
    middle = left + 65
    half = max(7, round(40 * (1 - share)))
    below = 134 + round(56 * share)
    begin = (206, 232) if ends_only else (below + 16, below + 40)
    return [
        flat_foil(left + 8, 150, 114, 124),
        *hanging_hair(middle - half, middle + half, 136, 268, 0),
        painted_from(middle - half, middle + half, *begin, 268, 2 if half > 12 else 1),
        *parting(left, left + 130, 100),
        *cushion(middle, 40 + round(6 * share), 124, below),
    ]


def two_foils_field(drawn: Drawn) -> Field:
    """A triangle, and each of its halves backcombed and painted on its foil."""
    above, below = float(drawn.backcomb or 0) / 100, float(drawn.backcomb_below or 0) / 100
    falls = "M150 14V38M142 26V38M158 26V38M112 80L124 54M130 80L134 54M150 80V54M170 80L166 54M188 80L176 54"
    shapes = (
        Shape("section", "M150 4L176 42H124Z"),
        Shape("section", "M121 48H179L204 84H96Z"),
        Shape("fall", falls),
        curved_arrow((134, 28), (64, 26), (66, 90)),
        curved_arrow((186, 66), (236, 60), (236, 90)),
        *_half_in_foil(4, above, False),
        *_half_in_foil(166, below, True),
    )
    return Field(300, 280, shapes, (Label(52, 20, "upper half"), Label(252, 48, "lower half")))


def folded_field(drawn: Drawn) -> Field:
    """A foil with its folds dashed, and as it is when folded."""
    folds, direction = drawn.folds or 1, drawn.direction or "up"
    lying = direction in ("forward", "back")
    parts = folds + 1
    wide, high = (108 // parts, 156) if lying else (108, 156 // parts)
    cuts = range(1, parts)
    ahead = -20 if direction in ("forward", "up") else 20
    if lying:
        at = [16 + wide * n for n in cuts]
        lines = [((x, 38), (x, 194)) for x in at]
        arrows = [curved_arrow((x - ahead, 202), (x, 222), (x + ahead, 202)) for x in at]
    else:
        at = [38 + high * n for n in cuts]
        lines = [((16, y), (124, y)) for y in at]
        arrows = [curved_arrow((130, y - ahead), (158, y), (130, y + ahead)) for y in at]
    left = 226 - wide // 2
    root, right, low = min(24, wide // 2 - 4), left + wide, 38 + high
    folded = {
        "up": f"M{left} {low}H{right}",
        "down": f"M{left} 38H{right}",
        "forward": f"M{left} 38V{low}",
        "back": f"M{right} 38V{low}",
    }
    edges = "".join(
        f"M{left + 5 * n} 42V{low - 4}" if lying else f"M{left + 4} {38 + 5 * n}H{right - 4}" for n in cuts
    )
    shapes = (
        *parting(4, 136, 0),
        flat_foil(16, 38, 108, 156),
        *hanging_hair(46, 94, 26, 180, 0),
        painted_from(46, 94, 56, 84, 180, 2),
        Shape("dashed", segments(lines)),
        *arrows,
        *parting(164, 288, 0),
        *hanging_hair(226 - root, 226 + root, 24, 80, 0),
        Shape("foil", f"M{left} 38h{wide}v{high}h{-wide}Z"),
        Shape("part", folded[direction]),
        Shape("edge", edges),
    )
    labels = [Label(226, 38 + high + 18, "folded")]
    for n, place in enumerate(at if folds > 1 else (), 1):
        order = str(n if direction in ("back", "down") else parts - n)
        labels.append(Label(place, 234, order) if lying else Label(160, place + 4, order))
    return Field(296, 238 if lying else 200, shapes, tuple(labels))
