"""The head with its sections, from each side from which they are seen: how the hair of a region is taken.

Geometry only. What is taken is filled in rows along the region's partings: a slice as a thin band that goes
on, a weave as strands with hair left out between them, finer or bolder as the technique says.
"""

from collections.abc import Sequence

from bowlbook.entries.drawn import WEAVES, Drawn
from bowlbook.entries.technique import Sectioning
from bowlbook.pages.drawing import Drawing, drawing_of
from bowlbook.pages.head_outline import REGIONS, VIEWS
from bowlbook.wording.listing import both

Tile = tuple[int, int, str]
"""What is repeated over a region: its width, its height and what is filled in it."""

TILES: dict[str, Tile] = {
    "slices": (12, 15, "M-2 4h16v4h-16z"),
    "triangles": (24, 40, "M1 19L12 2L23 19ZM-11 39L0 22L11 39ZM13 39L24 22L35 39Z"),
    "panels": (20, 20, "M2-2h14v24h-14z"),
    "ribbons": (14, 32, "M2-32q6 8 0 16t0 16t0 16t0 16t0 16t0 16h7q-6-8 0-16t0-16t0-16t0-16t0-16t0-16z"),
    "curls": (18, 18, "M9 2a7 7 0 1 1-7 7h3a4 4 0 1 0 4-4z"),
    "partings": (10, 11, "M-2 4h14v2h-14z"),
    "fine": (6, 12, "M1 2h3l-1 8h-1z"),
    "medium": (13, 15, "M2 2h7l-2 11h-3z"),
    "bold": (24, 18, "M3 2h14l-3 14h-8z"),
}
"""By how the hair is taken; weaves by their size."""

BACK_TO_FRONT = {"nape": 0, "back": 0, "crown": 1, "sides": 1, "top": 2, "fringe": 2, "hairline": 2}
"""Which weave a region has: that at the back, the one between, or that at the front."""
ONLY_SEEN = {"front": {"hairline", "fringe"}, "back": {"crown", "back", "nape"}}
"""What is seen well from there only: that view is drawn where one of these is sectioned."""


Fill = tuple[str, int]
"""A pattern: how the hair is taken (a weave by its size), and the angle of the partings."""


def head_drawing(
    sections: Sequence[Sectioning], drawings: Sequence[Drawn], anchor: str, *, small: bool = False
) -> Drawing | None:
    """The head with the regions that are sectioned filled; None where none is.

    ``drawings``: those of the same technique. Weaves among them say how fine those on the head are.
    ``small``: from the side only, without words in it.
    """
    # Without named regions an empty head would say that nothing is sectioned.
    if not sections:
        return None
    sizes = next(((each.at_back, each.at_front) for each in drawings if each.shows == "weaves"), None)
    back, front = sizes or (None, None)
    low, high = WEAVES.index(back or "medium"), WEAVES.index(front or "medium")
    weaves = [WEAVES[each] for each in (low, (low + high) // 2, high)]
    taken = {
        region: weaves[BACK_TO_FRONT[region]] if each.taken_in == "weaves" else each.taken_in
        for each in sections
        for region in each.on
    }
    fills: dict[Fill, str] = {}

    def filled(kind: str, angle: int) -> str:
        return fills.setdefault((kind, angle), f"{anchor}-{len(fills)}")

    views = []
    for view, regions in REGIONS.items():
        if view == "side" or not (small or taken.keys().isdisjoint(ONLY_SEEN[view])):
            outlines = [
                (path, filled(taken[region], angle) if region in taken else None)
                for region, (path, angle) in regions.items()
            ]
            views.append((view, VIEWS[view], outlines))
    kinds = list(dict.fromkeys(taken.values()))
    key = [(_kind(kind, back), filled(kind, 0)) for kind in kinds if len(kinds) > 1 and not small]
    words = ". ".join(
        f"{both(list(each.on)).capitalize()}: {_how(each.taken_in, back, front)}" for each in sections
    )
    words += ". Outlined: what is taken."
    return drawing_of("head", words, fills=fills, views=views, key=key, tiles=TILES, small=small)


def _kind(kind: str, size_said: str | None) -> str:
    """The key's word for a pattern."""
    if kind not in WEAVES:
        return kind
    return f"{kind} weaves" if size_said else "weaves"


def _how(taken_in: str, back: str | None, front: str | None) -> str:
    """How the hair is taken, with the size of weaves where the technique says it."""
    if taken_in != "weaves" or not back:
        return taken_in
    return f"{back} weaves" if back == front else f"weaves, {back} at the back and {front} at the front"
