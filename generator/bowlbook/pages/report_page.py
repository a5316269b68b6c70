"""Reports for the lead colourist and the owner: costs, weighing, and what goes out of date when."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.checks.stale_price import stale_on
from bowlbook.entries.blend import Blend
from bowlbook.entries.review import review_due
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bowl_panel import Panel
from bowlbook.pages.page import Page
from bowlbook.pages.pagination import paginate, render_pages
from bowlbook.pages.table import Table, TableRow
from bowlbook.wording.entry import KIND_TITLES
from bowlbook.wording.locale_format import LocaleFormat

COSTS = "reports/costs/"
WEIGHING = "reports/weighing/"
"""In one folder, so that one relative link to a blend is right on both pages."""


def _report(address: str, title: str, lead: str, tables: list[Table]) -> Iterator[Page]:
    return render_pages("report.html", paginate(address, tables), title, lead)


@dataclass(frozen=True, slots=True)
class BowlReportRow:
    """One size of a blend's bowl in the reports: the blend, a link to it, and the bowl's figures as texts."""

    name: str
    href: str
    label: str
    total: str
    cost: str | None
    worst_error: str
    within_tolerance: bool
    next_weighable: str | None


def bowl_report_rows(blend: Blend, panels: Iterable[Panel]) -> list[BowlReportRow]:
    """A blend's bowls as the reports show them."""
    href = relative(entry_address("blend", blend.id), COSTS)
    return [
        BowlReportRow(
            *(blend.name, href, each.label, each.total, each.cost),
            *(each.worst_error, each.within_tolerance, each.next_weighable),
        )
        for each in panels
    ]


def bowl_reports(book: Book, formats: LocaleFormat, bowls: Sequence[BowlReportRow]) -> Iterator[Page]:
    """The reports on bowls, rows in the order of ``bowls``: costs, where there are prices, and weighing."""
    if book.priced:
        yield from _costs(book, formats, bowls)
    yield from _weighing(bowls)


def _costs(book: Book, formats: LocaleFormat, bowls: Sequence[BowlReportRow]) -> Iterator[Page]:
    """What each bowl of each blend costs, and the prices that this is computed from."""
    costs = tuple(
        TableRow(each.name, each.href, (each.label, each.total, each.cost or "no price"), each.cost is None)
        for each in bowls
    )
    prices = []
    in_use = current(book.products).values()
    for product in sorted(in_use, key=lambda each: (each.kind, each.name.casefold())):
        pack = product.pack
        price = formats.price(pack.price) if pack and pack.price is not None else "no price"
        day = formats.day(pack.priced_on) if pack and pack.priced_on else "–"
        net = str(pack.net) if pack else "–"
        href = relative(entry_address("product", product.id), COSTS)
        prices.append(TableRow(product.name, href, (net, price, day), price == "no price"))
    return _report(
        COSTS,
        "Report: costs",
        "What a bowl costs at every batch size, by the house’s own prices.",
        [
            Table(
                "Bowls",
                "bowls",
                ("Blend", "Batch", "In the bowl", "Cost"),
                costs,
                numbers=frozenset({1, 2, 3}),
            ),
            Table(
                "Prices",
                "prices",
                ("Product", "Net", "Price", "Priced on"),
                tuple(prices),
                numbers=frozenset({1, 2}),
            ),
        ],
    )


def _weighing(bowls: Sequence[BowlReportRow]) -> Iterator[Page]:
    """Which sizes of which blend the scale can weigh."""
    good: list[TableRow] = []
    bad: list[TableRow] = []
    for each in bowls:
        nearest = each.label if each.within_tolerance else each.next_weighable or "none found"
        row = TableRow(
            each.name, each.href, (each.label, each.worst_error, nearest), not each.within_tolerance
        )
        (good if each.within_tolerance else bad).append(row)
    heads = ("Blend", "Batch", "Worst error", "Nearest size")
    numbers = frozenset({1, 2})
    return _report(
        WEIGHING,
        "Report: weighing",
        "How far rounding to the house’s scale takes each bowl off its recipe.",
        [
            Table(
                "Too small for this scale",
                "too-small",
                heads,
                tuple(bad),
                "The scale can weigh every size of every blend.",
                numbers,
            ),
            Table("Within tolerance", "within-tolerance", heads, tuple(good), numbers=numbers),
        ],
    )


def newest_stamp(book: Book) -> date | None:
    """The newest day in any entry. Pages compare with it, never with the clock, so that builds repeat."""
    packs = (each.pack for each in book.products.values())
    days = [each.reviewed_on for each in book.outlines().values()]
    days += [pack.priced_on for pack in packs if pack is not None]
    return max(filter(None, days), default=None)


def date_reports(book: Book, formats: LocaleFormat) -> Iterator[Page]:
    """When each review falls due and each price goes stale, soonest first."""
    address = "reports/dates/"
    day = newest_stamp(book)
    reviews: list[tuple[date, TableRow]] = []
    prices: list[tuple[date, TableRow]] = []
    never = []
    # Reviews and prices in one walk over the book, because a product may have both.
    for (kind, entry_id), outline in book.outlines().items():
        if outline.retired:
            continue
        name, href = outline.name, relative(entry_address(kind, entry_id), address)
        due = review_due(outline.reviewed_on, book.house.review_after)
        if kind == "product":
            stale = stale_on(book, book.products[entry_id])
            if stale is not None:
                row = TableRow(name, href, (formats.day(stale),), day is not None and stale <= day)
                prices.append((stale, row))
        if due is None and kind != "product":
            never.append(TableRow(name, href, (KIND_TITLES[kind],), True))
        elif due is not None:
            # A review is still in time on the day on which it is due.
            late = due + timedelta(days=1)
            cells = (KIND_TITLES[kind], formats.day(late))
            reviews.append((late, TableRow(name, href, cells, day is not None and late <= day)))
    # Names break ties, so that the same book gives the same page.
    reviews.sort(key=lambda pair: (pair[0], pair[1].name.casefold()))
    prices.sort(key=lambda pair: (pair[0], pair[1].name.casefold()))
    lead = "Soonest first. Marked rows were out of date"
    lead += f" on {formats.day(day)}, the newest day in the book." if day else "."
    return _report(
        address,
        "Report: out of date",
        lead,
        [
            Table(
                "Never reviewed", "never", ("Entry", "Kind"), tuple(never), "Every recipe has been reviewed."
            ),
            Table(
                "Reviews",
                "reviews",
                ("Entry", "Kind", "Overdue from"),
                tuple(row for _, row in reviews),
                ordered_by=2,
            ),
            Table(
                "Prices",
                "prices",
                ("Product", "Check this price by"),
                tuple(row for _, row in prices),
                ordered_by=1,
            ),
        ],
    )
