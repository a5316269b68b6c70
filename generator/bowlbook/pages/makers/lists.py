"""The lists and reports of what other makers hand over as pieces."""

from collections.abc import Iterator, Sequence
from typing import Any

from bowlbook.book.book import Book
from bowlbook.figures.verdict import Practice
from bowlbook.pages.cost_report import cost_report
from bowlbook.pages.coverage_page import coverage_pages
from bowlbook.pages.link_list import LinkGroup, LinkItem
from bowlbook.pages.maker import Output
from bowlbook.pages.overview_page import list_pages
from bowlbook.pages.report_page import BowlReportRow, ServiceReportRow
from bowlbook.pages.weighing_report import weighing_report
from bowlbook.wording.locale_format import locale_format_of


def listed(book: Book, kind: str, pieces: Sequence[LinkItem]) -> Iterator[Output]:
    """The list of a kind of `LISTED_BY_NAME`."""
    return list_pages(kind, [LinkGroup("", "all", tuple(pieces))])


def weighing(book: Book, pieces: Sequence[list[BowlReportRow]]) -> Iterator[Output]:
    """The report on weighing."""
    return weighing_report(book.house.rounding_tolerance, [row for rows in pieces for row in rows])


def costs(book: Book, count: int, pieces: Sequence[Any]) -> Iterator[Output]:
    """The report on costs.

    ``count``: of the pieces that are rows of a blend's bowls; the others are of a technique's service.
    """
    bowls: list[BowlReportRow] = [row for rows in pieces[:count] for row in rows]
    services: list[ServiceReportRow] = [row for row in pieces[count:] if row is not None]
    return cost_report(book, locale_format_of(book), bowls, services)


def coverage(book: Book, pieces: Sequence[Practice]) -> Iterator[Output]:
    """The report on the heads for which the book has no answer."""
    return coverage_pages(book, pieces[0].lightening)
