"""What the reports have in common: their rows, and pages with an answer, a drawing, and folded tables."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bowl_panel import Panel
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.pagination import paginate
from bowlbook.pages.render import render
from bowlbook.pages.service_sheet import Sheet, service_address
from bowlbook.pages.table import ReportTable

COSTS = "reports/costs/"
WEIGHING = "reports/weighing/"
"""In one folder, so that one relative link to a blend is right on both pages."""


class BowlReportRow(NamedTuple):
    """One size of a blend's bowl in the reports: the blend, a link to it, and the bowl's figures.

    ``size`` in ``unit``; ``spent`` and ``off`` as in `Panel`.
    """

    name: str
    href: str
    label: str
    unit: str
    size: Fraction
    cost: str | None
    spent: tuple[int, int, int]
    off: Fraction
    worst_error: str
    within_tolerance: bool
    next_weighable: str | None


def bowl_report_rows(blend: Blend, panels: Iterable[Panel]) -> list[BowlReportRow]:
    """A blend's bowls as the reports show them."""
    href = relative(entry_address("blend", blend.id), COSTS)
    return [
        BowlReportRow(
            *(blend.name, href, each.label, each.unit, Fraction(each.batch), each.cost, each.spent),
            *(each.off, each.worst_error, each.within_tolerance, each.next_weighable),
        )
        for each in panels
    ]


class ServiceReportRow(NamedTuple):
    """A service in the report on costs. ``spent`` as in `Sheet`; ``without``: what has no price."""

    name: str
    href: str
    hair: str
    total: str
    without: str
    spent: tuple[int, int, int]


def service_report_row(technique: Technique, sheet: Sheet) -> ServiceReportRow | None:
    """A service as the report shows it; None where nothing in it has a price."""
    if sheet.total is None or sheet.spent is None:
        return None
    href = relative(service_address(technique), COSTS)
    return ServiceReportRow(technique.name, href, sheet.hair, sheet.total, sheet.without.strip(), sheet.spent)


def report_pages(
    address: str,
    title: str,
    lead: str,
    tables: Sequence[ReportTable],
    headings: Sequence[Heading],
    **drawn: Any,
) -> Iterator[Page]:
    """The report's pages: on the first what is ``drawn``, under ``headings``, and the tables folded; the
    further ones go on with the tables."""
    for each in paginate(address, tables):
        name, first = each.title(title), each.number == 1
        shown = {key: drawn.get(key) if first else None for key in ("charts", "dots", "ages")}
        body = render("report.html", each.address, title=name, lead=lead, list_page=each, **shown)
        found = (*(headings if first else ()), *each.headings())
        yield Page(each.address, name, lead, body, found)
