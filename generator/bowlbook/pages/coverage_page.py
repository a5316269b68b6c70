"""The coverage pages: the whole situation space in sight at once, and every gap on a page of its own."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.facets import AREAS, TEXTURES, TONES
from bowlbook.figures.coverage import CORNERS, Corner, Coverage, Gap, coverage_of, gaps_of
from bowlbook.figures.shortlist import Index
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.render import render
from bowlbook.reading.amount import counted
from bowlbook.wording.reason import label, reasons_of, runs

ADDRESS = "reports/coverage/"
GAPS = "reports/coverage/gaps/"
SHOWN = 200
"""How many gaps the page lists."""
STATES = ("served", "thin", "empty")


Map = tuple[str, str, str]
"""One texture and tone of an area in words, and its squares: natural level across, levels of lift down.

A square is 1 by 1 in the first path. The other fills it where it is served, its lower half where thinly.
"""


class AreaMaps(NamedTuple):
    """The maps of one area, a row for each texture, in the order of the tones."""

    title: str
    anchor: str
    rows: list[tuple[str, list[Map]]]
    words: str


class GapRow(NamedTuple):
    """A gap in words, with its nearest recipe and what stops it."""

    heads: str
    kinds: str
    name: str | None
    href: str | None
    stops: str


class AreaGaps(NamedTuple):
    """The gaps that begin in one area, and what they are in short."""

    title: str
    anchor: str
    says: str
    gaps: list[GapRow]


def coverage_pages(book: Book, index: Index) -> Iterator[Page]:
    """The page of the situation space, and that of its gaps where there are any."""
    coverage = coverage_of(index.candidates)
    areas = [_area(coverage, area) for area in AREAS]
    gaps = gaps_of(index, coverage)
    counts = Counter(coverage.state(place) for place in range(len(CORNERS)))
    answered = len(CORNERS) - counts["empty"]
    words = f"{answered} of {_kinds(len(CORNERS))} have an answer: {counts['served']} have two or more."
    found = counted(len(gaps), "gap")
    body = render("coverage.html", ADDRESS, areas=areas, tones=TONES, gaps=gaps and found, words=words)
    headings = [Heading(area.anchor, area.title) for area in areas] + [Heading("gaps", "Gaps")]
    yield Page(ADDRESS, "Report: coverage", words, body, tuple(headings))
    if gaps:
        yield _gaps_page(book, gaps)


def _gaps_page(book: Book, gaps: list[Gap]) -> Page:
    """The largest gaps, by the area in which each begins."""
    lead = f"{counted(len(gaps), 'gap')}, each with the recipe that comes nearest and what stops it."
    if len(gaps) > SHOWN:
        lead += f" The {SHOWN} largest are listed."
    areas = []
    for area in AREAS:
        own = [gap for gap in gaps[:SHOWN] if gap.corners[0].area == area]
        heads = _kinds(sum(len(gap.corners) for gap in own))
        if own:
            says = f"{counted(len(own), 'gap')}, {heads}"
            areas.append(AreaGaps(area.capitalize(), _anchor(area), says, [_gap(book, gap) for gap in own]))
    body = render("gaps.html", GAPS, areas=areas, lead=lead)
    headings = tuple(Heading(each.anchor, each.title) for each in areas)
    return Page(GAPS, "Report: gaps in the coverage", lead, body, headings)


def _kinds(number: int) -> str:
    return f"{counted(number, 'kind')} of head"


def _anchor(area: str) -> str:
    return area.replace(" ", "-")


def _in_words(coverage: Coverage, places: Iterable[int]) -> str:
    """How many squares are served by two or more, by one and by none."""
    counts = Counter(map(coverage.state, places))
    return ", ".join(
        f"{counts[state]} {noun}"
        for state, noun in zip(STATES, ("by two or more", "by one", "by none"), strict=True)
    )


def _area(coverage: Coverage, area: str) -> AreaMaps:
    """The maps of an area."""
    places = [place for place, corner in enumerate(CORNERS) if corner.area == area]
    rows = []
    for texture in TEXTURES:
        maps = []
        for tone in TONES:
            own = [n for n in places if (CORNERS[n].texture, CORNERS[n].tone) == (texture, tone)]
            maps.append(_map(coverage, own))
        rows.append((texture, maps))
    return AreaMaps(area.capitalize(), _anchor(area), rows, _in_words(coverage, places))


def _map(coverage: Coverage, places: Sequence[int]) -> Map:
    by_state: dict[str, list[Corner]] = {state: [] for state in STATES}
    for place in places:
        by_state[coverage.state(place)].append(CORNERS[place])
    every = [corner for own in by_state.values() for corner in own]
    filled = _path(by_state["served"], 0) + _path(by_state["thin"], 0.45)
    return _in_words(coverage, places), _path(every, 0), filled


def _path(corners: Iterable[Corner], above: float) -> str:
    """Squares of 0.9 that leave ``above`` of their height blank."""
    return "".join(
        f"M{each.natural_level - 1:g} {each.lift - 1 + above:g}h.9v{0.9 - above:g}h-.9z" for each in corners
    )


def _gap(book: Book, gap: Gap) -> GapRow:
    heads = " · ".join(_heads(gap.corners))
    kinds = _kinds(len(gap.corners))
    nearest = gap.nearest
    # Only a pair says both what to mix and how to place it, and so could close a gap.
    if nearest is None or nearest.candidate.within is None:
        return GapRow(heads, kinds, None, None, "The book has no blend placed with a technique.")
    stops = " ".join(reasons_of(nearest, gap.corners[0].head()).why_not)
    href = relative(entry_address("blend", nearest.candidate.id), GAPS)
    return GapRow(heads, kinds, label(book, nearest), href, stops)


def _heads(corners: tuple[Corner, ...]) -> list[str]:
    """Corners in words, those with the same levels and lifts taken together."""
    by_kind: dict[tuple[str, str, str], list[Corner]] = {}
    for corner in corners:
        by_kind.setdefault((corner.area, corner.texture, corner.tone), []).append(corner)
    by_levels: dict[str, list[tuple[str, str, str]]] = {}
    for kind, alike in by_kind.items():
        by_levels.setdefault(_levels(tuple(alike)), []).append(kind)
    lines = []
    for levels, kinds in by_levels.items():
        areas, textures, tones = (list(dict.fromkeys(kind[n] for kind in kinds)) for n in range(3))
        # Only a full combination may be written as three lists: else it would name corners that are covered.
        whole = len(kinds) == len(areas) * len(textures) * len(tones)
        for area in [areas] if whole else [[each] for each in areas]:
            own = [kind for kind in kinds if kind[0] in area]
            lines.append(
                f"{_any(area, AREAS, 'area')}, {_any([k[1] for k in own], TEXTURES, 'texture')}, "
                f"{_any([k[2] for k in own], TONES, 'tone')}: {levels}"
                if whole or _is_product(own)
                else f"{area[0]}, " + ", ".join(f"{k[1]} {k[2]}" for k in own) + f": {levels}"
            )
    return lines


def _is_product(kinds: list[tuple[str, str, str]]) -> bool:
    return len(kinds) == len({kind[1] for kind in kinds}) * len({kind[2] for kind in kinds})


def _any(words: list[str], every: tuple[str, ...], noun: str) -> str:
    unique = [word for word in every if word in words]
    return f"any {noun}" if len(unique) == len(every) else " or ".join(unique)


def _levels(corners: tuple[Corner, ...]) -> str:
    """Natural levels with their lifts: ``level 1 by 4–9; levels 2–3 by 5``."""
    by_natural: dict[int, list[int]] = {}
    for corner in corners:
        by_natural.setdefault(corner.natural_level, []).append(corner.lift)
    by_lifts: dict[str, list[int]] = {}
    for natural, lifts in by_natural.items():
        by_lifts.setdefault(runs(sorted(lifts)), []).append(natural)
    return "; ".join(
        f"{'level' if len(naturals) == 1 else 'levels'} {runs(naturals)} lifted by {lifts}"
        for lifts, naturals in by_lifts.items()
    )
