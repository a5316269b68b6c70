"""Figure 11: which corners of the situation space the book serves, thinly or not at all.

A corner is a natural level, levels of lift that end at level 10 or below, a texture, a tone and an area; the
other facets are left unsaid. A corner is served by two or more blends placed with a technique, thinly by one.
Corners are bits of one large number, so that a recipe's share is a few operations whatever the book's size.
"""

from collections.abc import Iterable
from itertools import product
from typing import NamedTuple

from bowlbook.entries.facets import AREAS, TEXTURES, TONES
from bowlbook.figures.candidate import Candidate
from bowlbook.figures.head import DOMAINS, PLACES, Head, completed, head_with
from bowlbook.figures.match import Verdict
from bowlbook.figures.shortlist import Index, shortlist
from bowlbook.figures.tally import any_of, places_of

AXES = ("natural_level", "lift", "texture", "tone", "area")
LEVEL_PAIRS = tuple((natural, lift) for natural in range(1, 11) for lift in range(1, 11 - natural))


class Corner(NamedTuple):
    """One kind of head with one kind of wish."""

    natural_level: int
    lift: int
    texture: str
    tone: str
    area: str

    @property
    def target_level(self) -> int:
        """The level that it is lifted to."""
        return self.natural_level + self.lift

    def head(self) -> Head:
        """The corner as a completed head, without weeks."""
        said = {axis: 1 << DOMAINS[axis].index(getattr(self, axis)) for axis in AXES}
        whole = completed(head_with(**said))
        assert whole is not None  # a corner ends at level 10 or below
        return whole


CORNERS = tuple(
    Corner(natural, lift, texture, tone, area)
    for area, texture, tone, (natural, lift) in product(AREAS, TEXTURES, TONES, LEVEL_PAIRS)
)
EVERY = (1 << len(CORNERS)) - 1


def _having(facet: str, value: int | str) -> int:
    """The corners with one value of a facet."""
    name = "area" if facet == "reach" else facet
    return sum(1 << place for place, corner in enumerate(CORNERS) if getattr(corner, name) == value)


CORNERS_WITH = {
    facet: tuple(_having(facet, value) for value in DOMAINS[facet])
    for facet in (*AXES, "target_level", "reach")
}
"""For each facet that a corner says, and each of its values, the corners with that value."""


class Coverage(NamedTuple):
    """The corners (by their places in `CORNERS`) as bit sets."""

    served: int
    thin: int

    @property
    def empty(self) -> int:
        return EVERY & ~self.served & ~self.thin

    def state(self, place: int) -> str:
        """served, thin or empty."""
        if self.served >> place & 1:
            return "served"
        return "thin" if self.thin >> place & 1 else "empty"


def coverage_of(candidates: Iterable[Candidate]) -> Coverage:
    """How often each corner is served by the pairs among the candidates."""
    once = twice = 0
    for candidate in candidates:
        if candidate.kind == "pair":
            own = corners_of(candidate)
            twice |= once & own
            once |= own
    return Coverage(served=twice, thin=once & ~twice)


def corners_of(candidate: Candidate) -> int:
    """The corners that a candidate suits: the same as asking `verdict_on` of each."""
    if not any(suits for name, suits in zip(PLACES, candidate.suits, strict=True) if name in CORNERS_WITH):
        return 0  # what is for any head is no answer
    bits = _within(candidate.suits, EVERY)
    for clause in candidate.excluded_by:
        # A clause that asks what a corner does not say holds for none of them for certain.
        bits &= ~_within(clause.when, 0)
    return bits


def _within(head: Head, unsaid: int) -> int:
    """The corners in a set of heads. ``unsaid``: those that any facet leaves which no corner says."""
    bits = EVERY
    for facet, wanted in zip(PLACES, head, strict=True):
        if wanted:
            known = CORNERS_WITH.get(facet)
            bits &= unsaid if known is None else any_of(known[place] for place in places_of(wanted))
    return bits


class Gap(NamedTuple):
    """Empty corners that the same fact keeps from the same nearest recipe. None: the book has no pair."""

    corners: tuple[Corner, ...]
    nearest: Verdict | None


def gaps_of(index: Index, coverage: Coverage) -> list[Gap]:
    """The empty corners, each with its nearest pair, gathered by what stops it; the largest gap first."""
    gathered: dict[object, tuple[list[Corner], Verdict | None]] = {}
    for place in places_of(coverage.empty):
        corner = CORNERS[place]
        found = shortlist(index, corner.head(), one_head=False)
        nearest = found.nearest("pair") if found else None
        fact: object = None
        if nearest is not None:
            stops = nearest.excluded or nearest.misses
            fact = (nearest.candidate.id, nearest.candidate.within, stops)
        gathered.setdefault(fact, ([], nearest))[0].append(corner)
    gaps = [Gap(tuple(corners), nearest) for corners, nearest in gathered.values()]
    return sorted(gaps, key=lambda gap: -len(gap.corners))
