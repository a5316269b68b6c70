"""Drawings: the strand with its zones, the levels, the bowl as a bar of parts.

Inline SVG, hidden from screen readers where its caption says the same. Nothing is shown by colour alone.
Geometry only: the figures come from `bowlbook.figures`.
"""

from fractions import Fraction
from typing import Any, NamedTuple

from markupsafe import Markup

from bowlbook.entries.technique import TechniqueBowl
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.pigment import UNDERLYING
from bowlbook.figures.proportion import parts_in_bowl
from bowlbook.figures.rounding import half_up
from bowlbook.pages.render import finished, render
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.listing import both

ZONE_WORDS = {"1": "root", "2": "mid-length", "3": "ends"}
TOP, ZONE, MIDDLE, HALF = 24, 60, 62, 22
"""The strand: height of the root, length of a zone, its middle, half its width, in units of the drawing."""


class Drawing(NamedTuple):
    """A finished drawing and the same in words, for its caption."""

    svg: Markup
    words: str


def drawing_of(template: str, words: str, **values: Any) -> Drawing:
    """A drawing by a template of ``drawings/``."""
    return Drawing(finished(render(f"drawings/{template}.svg", "", words=words, **values)), words)


def strand_drawing(bowl: TechniqueBowl, placement: str, anchor: str) -> Drawing:
    """One section of hair from root to ends: where lightener goes, what is backcombed away, the foil."""
    # Floats are fine here: only coordinates are made of them, to a tenth of a unit.
    kept = 1 - float(bowl.backcomb or 0) / 100
    zones = []
    # All three zones are drawn, so that the untreated ones show as such.
    for place, (number, word) in enumerate(ZONE_WORDS.items()):
        top = TOP + place * ZONE
        outline = _slice(top, top + ZONE, kept)
        zones.append((number, word, top + ZONE // 2, outline, number in bowl.zones))
    words = f"Lightener on {both([zone_name(zone) for zone in ZONE_WORDS if zone in bowl.zones])}"
    if bowl.backcomb:
        words += f"; {plain(bowl.backcomb)} % backcombed away towards the root"
    if placement == "foil":
        words += "; in foil"
    # The foil starts at the zone nearest to the root that gets lightener.
    first = min(int(number) for number in bowl.zones)
    return drawing_of(
        "strand",
        words + ".",
        anchor=anchor,
        zones=zones,
        whole=_slice(TOP, TOP + 3 * ZONE, 1),
        tangle=_tangle(float(bowl.backcomb) / 100) if bowl.backcomb else "",
        foil=TOP + (first - 1) * ZONE + 8 if placement == "foil" else None,
        bottom=TOP + 3 * ZONE,
    )


def zone_name(zone: str) -> str:
    """A zone by its number and its word: ``zone 1 (root)``."""
    return f"zone {zone} ({ZONE_WORDS[zone]})"


def _slice(top: int, bottom: int, share: float) -> str:
    """The outline of the strand between two heights, narrowed to a share of its width."""

    def half(y: int) -> float:
        return (HALF - (y - TOP) * 8 / (3 * ZONE)) * share

    corners = [(MIDDLE - half(top), top), (MIDDLE + half(top), top)]
    corners += [(MIDDLE + half(bottom), bottom), (MIDDLE - half(bottom), bottom)]
    return " ".join(f"{x:.1f},{y}" for x, y in corners)


def _tangle(share: float) -> str:
    """The cushion of backcombed hair at the root: the more is combed away, the more loops."""
    rows = 2 + round(share * 6)
    path = []
    for row in range(rows):
        y = TOP + 10 + row * 6
        path.append(f"M{MIDDLE - HALF} {y}q7 -9 11 0t11 0t11 0t11 0")
    return "".join(path)


def levels_drawing(natural: int, target: int) -> Drawing:
    """The ten levels, the pigment under each; ``natural`` and ``target`` are bit sets of levels to frame."""
    levels = [(n + 1, 14 + n * 32, natural >> n & 1, target >> n & 1) for n in range(10)]
    framed = [f"level {level}" for level, _, _, is_target in levels if is_target]
    words = "Framed above: this hair. " if framed else "Framed: this hair. " if natural else ""
    words += f"Framed below: lifted to {both(framed)}. " if framed else ""
    words += f"Lifting exposes: {', '.join(f'{each.level} {each.shows}' for each in UNDERLYING)}. "
    words += "Levels 1 and 3 are hair as measured, all other colours are drawn by eye."
    return drawing_of("levels", words, levels=levels)


def bowl_drawing(bowl: Bowl, anchor: str) -> Drawing:
    """The bowl as a bar: each pour as wide as its share of the weight, lettered, and the same in words."""
    total = sum((each.reading.exact for each in bowl.pours), Fraction(0))
    blocks, words, left = [], [], Fraction(0)
    for place, (each, part) in enumerate(zip(bowl.pours, parts_in_bowl(bowl.blend), strict=True)):
        letter, width = chr(ord("A") + place), each.reading.exact / total * 300
        x, wide, middle = (f"{float(number):.1f}" for number in (left, width, left + width / 2))
        blocks.append((letter, x, wide, middle, each.role))
        # What each pour is of the recipe, in parts of the same size as the lighteners'.
        share = counted(Fraction(half_up(part * 100), 100), "part")
        words.append(f"{letter} {each.product.name} {share}")
        left += width
    return drawing_of("bowl", f"{', '.join(words)}.", anchor=anchor, blocks=blocks)
