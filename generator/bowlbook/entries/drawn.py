"""Drawings of a technique: what one shows, in the trade's words, and which further fields that takes.

Geometry and the sentences for it are elsewhere (`bowlbook.pages.placement`, `bowlbook.wording.placement`).
"""

from typing import Annotated

from bowlbook.entries.amounts import Percent, whole
from bowlbook.entries.entry import Part, said
from bowlbook.entries.words import one_of
from bowlbook.reading.refusal import Refusal

SHOWN = (
    "slice",
    "weaves",
    "brick-laid triangles",
    "painted surface",
    "pocket of depth",
    "tipped ends",
    "triangle in two foils",
    "backcombing",
    "over-direction",
    "folding",
)
WEAVES = ("fine", "medium", "bold")
DIRECTIONS = ("forward", "back", "up", "down")

TAKES = {
    "weaves": ("at_back", "at_front"),
    "brick-laid triangles": ("rows",),
    "painted surface": ("points",),
    "triangle in two foils": ("backcomb", "backcomb_below"),
    "backcombing": ("backcomb",),
    "over-direction": ("direction",),
    "folding": ("folds", "direction"),
}
"""The further fields of what is shown: all of them are needed, and no others are read."""
FURTHER = tuple(dict.fromkeys(name for names in TAKES.values() for name in names))


class Drawn(Part):
    """A drawing of a technique or of one of its steps, made from these words."""

    shows: Annotated[str, one_of(SHOWN, "something that can be drawn")] = said(
        "What it shows: slice, weaves, brick-laid triangles, painted surface, pocket of depth, tipped ends, "
        "triangle in two foils, backcombing, over-direction or folding.",
        public=True,
    )
    step: Annotated[int, whole(1, 100, "as the number of a step")] | None = said(
        "The number of the step that it stands beside. Left out: the technique as a whole.",
        public=True,
        default=None,
    )
    at_back: Annotated[str, one_of(WEAVES, "a size of weave")] | None = said(
        "Weaves: how they are at the back of the head: fine, medium or bold.", public=True, default=None
    )
    at_front: Annotated[str, one_of(WEAVES, "a size of weave")] | None = said(
        "Weaves: how they are at the front: fine, medium or bold.", public=True, default=None
    )
    rows: tuple[Annotated[int, whole(1, 7, "triangles in a row")], ...] = said(
        "Brick-laid triangles: how many stand in each row at the back of the head, from the nape up, "
        "as [3, 4, 5, 4]; at most six rows.",
        public=True,
        default=(),
    )
    points: Annotated[int, whole(1, 3, "points")] | None = said(
        "Painted surface: in how many points the lightener begins, 1 to 3.", public=True, default=None
    )
    backcomb: Percent | None = said(
        "Backcombing: the share of the section that is combed back, 10 to 90 %. Triangle in two foils: that "
        "of its upper half.",
        public=True,
        default=None,
    )
    backcomb_below: Percent | None = said(
        "Triangle in two foils: the share of its lower half that is combed back, 10 to 90 %.",
        public=True,
        default=None,
    )
    direction: Annotated[str, one_of(DIRECTIONS, "a direction")] | None = said(
        "Over-direction: where the hair is combed to. Folding: where the foil is folded to. forward (to the "
        "face), back, up or down.",
        public=True,
        default=None,
    )
    folds: Annotated[int, whole(1, 3, "folds")] | None = said(
        "Folding: how many times, 1 to 3.", public=True, default=None
    )

    def __post_init__(self) -> None:
        takes = TAKES.get(self.shows, ())
        given = [name for name in FURTHER if getattr(self, name) not in (None, ())]
        if missing := [name for name in takes if name not in given]:
            message = f'The key "{missing[0]}" is missing: a drawing of {self.shows} needs it.'
            mend = f"Add {missing[0]}:, or choose something else to show."
            raise Refusal("missing-key", message, mend, ("shows",))
        if strange := [name for name in given if name not in takes]:
            message = f'"{strange[0]}" says nothing in a drawing of {self.shows}.'
            mend = f"Delete {strange[0]}." + (f" This drawing takes: {', '.join(takes)}." if takes else "")
            raise Refusal("unknown-key", message, mend, (strange[0],))
        if len(self.rows) > 6:
            raise Refusal("out-of-bounds", "More than six rows.", "Write at most six.", ("rows",))
        for name in ("backcomb", "backcomb_below"):
            share = getattr(self, name)
            if share is not None and not 10 <= share <= 90:
                message = f"{float(share):g} % cannot be drawn: 10 to 90 % of a section are combed back."
                raise Refusal("out-of-bounds", message, "Write a share between these.", (name,))
