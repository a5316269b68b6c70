"""The report on weighing: how far rounding to the house's scale takes each bowl off its recipe."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.figures.rounding import half_up
from bowlbook.pages.bars import percent
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.report_page import WEIGHING, BowlReportRow, report_pages
from bowlbook.pages.table import ReportTable, TableRow
from bowlbook.reading.amount import counted, plain

BINS = 48
"""How many places a row has for its dots: bowls that are nearly alike share one."""


Dot = tuple[str, str, bool]
"""Bowls with nearly the same error: where they stand, how large, and whether they are too far off."""


class Dots(NamedTuple):
    """A row for each size: its label, how many of its bowls are too far off, and their dots.

    ``limit``: where the house's tolerance stands, ``tolerance`` and ``most`` in words.
    """

    rows: list[tuple[str, str, list[Dot]]]
    limit: str
    tolerance: str
    most: str


def weighing_report(tolerance: Fraction, bowls: Sequence[BowlReportRow]) -> Iterator[Page]:
    """The report's pages. ``tolerance`` in per cent."""
    good, bad = ([each for each in bowls if each.within_tolerance == within] for within in (True, False))
    lead = "The scale can weigh every size of every blend."
    if bad:
        lead = (
            f"{len(bad)} of {counted(len(bowls), 'bowl')} are more than {plain(tolerance)} % off the recipe."
        )
    heads, numbers = ("Blend", "Batch", "Off by", "Nearest size"), frozenset({1, 2})
    tables = [
        ReportTable(title, anchor, heads, tuple(map(_row, some)), numbers=numbers)
        for title, anchor, some in (
            ("Too small for this scale", "too-small", bad),
            ("Close enough", "within-tolerance", good),
        )
    ]
    dots = _dots(tolerance, bowls) if bowls else None
    drawn = [Heading("by-size", "Off the recipe, by size")] if dots else []
    return report_pages(WEIGHING, "Report: weighing", lead, tables, drawn, dots=dots)


def _row(bowl: BowlReportRow) -> TableRow:
    nearest = bowl.label if bowl.within_tolerance else bowl.next_weighable or "none found"
    return TableRow(bowl.name, bowl.href, (bowl.label, bowl.worst_error, nearest), not bowl.within_tolerance)


def _dots(tolerance: Fraction, bowls: Sequence[BowlReportRow]) -> Dots:
    """A row for each size, as wide as the larger of the worst error and twice the tolerance."""
    most = max([2 * tolerance, *(each.off for each in bowls)]) or Fraction(1)
    by_label: dict[str, list[BowlReportRow]] = {}
    for each in sorted(bowls, key=lambda bowl: (bowl.unit != bowls[0].unit, bowl.unit, bowl.size)):
        by_label.setdefault(each.label, []).append(each)
    rows = [(label, _answer(own), _dots_of(own, most)) for label, own in by_label.items()]
    return Dots(rows, percent(tolerance, most), f"{plain(tolerance)} %", f"{half_up(most)} %")


def _answer(own: Sequence[BowlReportRow]) -> str:
    over = sum(not each.within_tolerance for each in own)
    return f"{over} of {len(own)} too far off" if over else f"all {len(own)} close enough"


def _dots_of(own: Sequence[BowlReportRow], most: Fraction) -> list[Dot]:
    """Each dot's area grows with the number of its bowls."""
    count = Counter((int(each.off / most * BINS), not each.within_tolerance) for each in own)
    return [
        (percent(place, BINS), f"{min(3 * number**0.5, 9):.1f}", over)
        for (place, over), number in sorted(count.items())
    ]
