"""The report on what goes out of date: how old the prices are, and when each review and price falls due."""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.checks.stale_price import stale_on
from bowlbook.entries.review import review_due
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bars import percent
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.report_page import report_pages
from bowlbook.pages.table import ReportTable, TableRow
from bowlbook.reading.amount import counted
from bowlbook.wording.entry import KIND_TITLES
from bowlbook.wording.locale_format import LocaleFormat, locale_format_of

ADDRESS = "reports/dates/"
COLUMNS = 24
"""How many columns the days between the oldest price and the newest day of the book are put into."""


class _Due(NamedTuple):
    """The first day on which a row's entry is out of date, and the row."""

    day: date
    row: TableRow


class AgeColumn(NamedTuple):
    """Prices of about the same age: how many, where the column stands, and how high."""

    prices: int
    left: str
    middle: str
    top: str
    height: str
    stale: bool


class Ages(NamedTuple):
    """The prices on a line of days, and the same in words. ``last``: the newest day in the book."""

    columns: tuple[AgeColumn, ...]
    width: str
    first: str
    last: str
    words: str


def newest_stamp(book: Book) -> date | None:
    """The newest day in any entry. Pages compare with it, never with the clock, so that builds repeat."""
    packs = (each.pack for each in book.products.values())
    days = [each.reviewed_on for each in book.outlines().values()]
    days += [pack.priced_on for pack in packs if pack is not None]
    return max(filter(None, days), default=None)


def date_report(book: Book) -> Iterator[Page]:
    """When each review falls due and each price goes stale, soonest first."""
    formats, day = locale_format_of(book), newest_stamp(book)
    never, reviews, prices = _rows(book, formats, day)
    due, stale = (tuple(each.row for each in some) for some in (reviews, prices))
    tables = [
        ReportTable("Never reviewed", "never", ("Entry", "Kind"), never, "Every recipe has been reviewed."),
        ReportTable("Reviews", "reviews", ("Entry", "Kind", "Overdue from"), due, ordered_by=2),
        ReportTable("Prices", "prices", ("Product", "Check this price by"), stale, ordered_by=1),
    ]
    lead = _lead(formats, day, reviews, prices)
    ages = _ages(book, formats, day) if day else None
    drawn = [Heading("ages", "Age of the prices")] if ages else []
    return report_pages(ADDRESS, "Report: out of date", lead, tables, drawn, ages=ages)


def _lead(formats: LocaleFormat, day: date | None, reviews: Sequence[_Due], prices: Sequence[_Due]) -> str:
    if day is None:
        return "The book has no dates yet."
    late = [
        counted(sum(each.row.mark for each in some), noun)
        for some, noun in ((reviews, "review"), (prices, "price"))
        if any(each.row.mark for each in some)
    ]
    found = f"Out of date: {' and '.join(late)}," if late else "Nothing was out of date"
    lead = f"{found} on {formats.day(day)}, the newest day in the book."
    ahead = [each for each in (*reviews, *prices) if not each.row.mark]
    if ahead:
        soonest = min(ahead, key=lambda each: each.day)
        lead += f" Next: {soonest.row.name}, {formats.day(soonest.day)}."
    return lead


def _rows(
    book: Book, formats: LocaleFormat, day: date | None
) -> tuple[tuple[TableRow, ...], list[_Due], list[_Due]]:
    """What was never reviewed; reviews; prices. In one walk over the book: a product may be in both."""
    never, reviews, prices = [], [], []
    for (kind, entry_id), outline in book.outlines().items():
        if outline.retired:
            continue
        name, href = outline.name, relative(entry_address(kind, entry_id), ADDRESS)
        due = review_due(outline.reviewed_on, book.house.review_after)
        stale = stale_on(book, book.products[entry_id]) if kind == "product" else None
        if stale is not None:
            mark = day is not None and stale <= day
            prices.append(_Due(stale, TableRow(name, href, (formats.day(stale),), mark)))
        if due is None and kind != "product":
            never.append(TableRow(name, href, (KIND_TITLES[kind],), True))
        elif due is not None:
            # A review is still in time on the day on which it is due.
            late = due + timedelta(days=1)
            mark = day is not None and late <= day
            reviews.append(_Due(late, TableRow(name, href, (KIND_TITLES[kind], formats.day(late)), mark)))
    for found in (reviews, prices):
        # Names break ties, so that the same book gives the same page.
        found.sort(key=lambda each: (each.day, each.row.name.casefold()))
    return tuple(never), reviews, prices


def _ages(book: Book, formats: LocaleFormat, last: date) -> Ages | None:
    """Columns of the prices in use that have a day; None without any."""
    found = [
        (each.pack.priced_on, stale)
        for each in current(book.products).values()
        if each.pack and each.pack.priced_on and (stale := stale_on(book, each))
    ]
    if not found:
        return None
    first = min(day for day, _ in found)
    span = (last - first).days + 1
    columns = min(COLUMNS, span)
    count = Counter(((day - first).days * columns // span, stale <= last) for day, stale in found)
    most = max(count.values())
    old = sum(number for (_, late), number in count.items() if late)
    words = f"{counted(len(found), 'price')}, the oldest of {formats.day(first)}. "
    limit = counted(book.house.prices_stale_after, "day")
    words += f"Older than {limit}: {old}." if old else f"None is older than {limit}."
    drawn = tuple(
        AgeColumn(
            *(number, percent(place, columns), percent(2 * place + 1, 2 * columns)),
            *(percent(most - number, most), percent(number, most), late),
        )
        for (place, late), number in sorted(count.items())
    )
    return Ages(drawn, percent(1, columns), formats.day(first), formats.day(last), words)
