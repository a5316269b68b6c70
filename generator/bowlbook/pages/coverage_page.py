"""The coverage page: the whole situation space as a picture with words, and every gap named."""

from dataclasses import dataclass

from bowlbook.book.book import Book
from bowlbook.entries.facets import AREAS, TEXTURES, TONES
from bowlbook.figures.coverage import CORNERS, Corner, Coverage, Gap, coverage_of, gaps_of
from bowlbook.figures.shortlist import Index
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.render import render
from bowlbook.reading.amount import counted
from bowlbook.wording.reason import reasons_of, runs

ADDRESS = "reports/coverage/"
SHOWN = 200
"""How many gaps the page lists."""
CELL = 10


@dataclass(frozen=True, slots=True)
class Cell:
    """One corner in the picture."""

    x: int
    y: int
    state: str


@dataclass(frozen=True, slots=True)
class Map:
    """One texture and tone of an area: its corners by level (down) and lift (across), and in words."""

    title: str
    cells: list[Cell]
    words: str


@dataclass(frozen=True, slots=True)
class AreaMaps:
    """The maps of one area."""

    title: str
    anchor: str
    maps: list[Map]
    words: str


@dataclass(frozen=True, slots=True)
class GapRow:
    """A gap in words, with its nearest recipe and what stops it."""

    heads: str
    count: str
    name: str | None
    href: str | None
    stops: str


def coverage_page(book: Book, index: Index) -> Page:
    """The page of the situation space."""
    coverage = coverage_of(index.candidates)
    areas = [_area(coverage, area) for area in AREAS]
    gaps = gaps_of(index, coverage)
    counts = [sum(coverage.state(n) == state for n in range(len(CORNERS))) for state in STATES]
    body = render(
        "coverage.html",
        ADDRESS,
        areas=areas,
        gaps=[_gap(book, gap) for gap in gaps[:SHOWN]],
        more=counted(len(gaps) - SHOWN, "smaller gap") if len(gaps) > SHOWN else None,
        words=_counts_in_words(counts),
        size=CELL * 10,
        cell=CELL - 1,
    )
    lead = "Which heads the book has an answer for, and which not."
    headings = [Heading(area.anchor, area.title) for area in areas] + [Heading("gaps", "Gaps")]
    return Page(ADDRESS, "Report: coverage", lead, body, tuple(headings), None)


STATES = ("served", "thin", "empty")


def _counts_in_words(counts: list[int]) -> str:
    served, thin, empty = counts
    return f"{counted(served, 'corner')} served by two or more, {thin} by one, {empty} by none"


def _area(coverage: Coverage, area: str) -> AreaMaps:
    maps = []
    totals = [0, 0, 0]
    for texture in TEXTURES:
        for tone in TONES:
            cells, counts = [], [0, 0, 0]
            for place, corner in enumerate(CORNERS):
                if (corner.area, corner.texture, corner.tone) == (area, texture, tone):
                    state = coverage.state(place)
                    counts[STATES.index(state)] += 1
                    cells.append(Cell(corner.lift * CELL - CELL, corner.natural_level * CELL - CELL, state))
            totals = [total + count for total, count in zip(totals, counts, strict=True)]
            maps.append(Map(f"{texture} hair, {tone}", cells, _counts_in_words(counts)))
    return AreaMaps(area.capitalize(), area.replace(" ", "-"), maps, _counts_in_words(totals))


def _gap(book: Book, gap: Gap) -> GapRow:
    heads = " · ".join(_heads(gap.corners))
    count = counted(len(gap.corners), "corner")
    nearest = gap.nearest
    # Only a pair says both what to mix and how to place it, and so could close a gap.
    if nearest is None or nearest.candidate.within is None:
        return GapRow(
            heads,
            count,
            None,
            None,
            "The book has no blend placed with a technique.",
        )
    candidate = nearest.candidate
    name = f"{candidate.name}, placed with {book.techniques[nearest.candidate.within].name}"
    stops = " ".join(reasons_of(nearest, gap.corners[0].head()).why_not)
    href = relative(entry_address("blend", candidate.id), ADDRESS)
    return GapRow(heads, count, name, href, stops)


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
