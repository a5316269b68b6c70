"""Reports for whoever keeps the book: costs, weighability, and what goes out of date when."""

from dataclasses import dataclass, field
from datetime import date, timedelta

from generator.book.book import Book
from generator.checks.stale_price import stale_on
from generator.entries.product import Product
from generator.entries.review import review_due
from generator.figures.bowl import ladder_of, mix
from generator.pages.address import entry_address, relative
from generator.pages.bowl_panel import Panel, panel_of
from generator.pages.link_list import KIND_TITLES, name_of
from generator.pages.page import Heading, Page
from generator.pages.render import render
from generator.pages.wording import Wording


@dataclass(frozen=True, slots=True)
class Row:
    """A row: a link, then cells. ``mark`` draws attention to it."""

    name: str
    href: str
    cells: tuple[str, ...]
    mark: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its columns' heads; ``numbers`` are the columns that hold numbers."""

    title: str
    anchor: str
    heads: tuple[str, ...]
    rows: list[Row]
    none: str = "None."
    numbers: frozenset[int] = field(default_factory=frozenset)


def _page(address: str, title: str, lead: str, tables: list[Table]) -> Page:
    body = render("report.html", address, title=title, lead=lead, tables=tables)
    headings = tuple(Heading(table.anchor, table.title) for table in tables)
    return Page(address, title, lead, body, headings, None)


def _panels(book: Book, wording: Wording, start: str) -> list[tuple[str, str, Panel]]:
    rows = []
    for blend in sorted(book.blends.values(), key=lambda each: (each.name.casefold(), each.id)):
        href = relative(entry_address("blend", blend.id), start)
        for unit, batch, step in ladder_of(book, blend):
            rows.append(
                (blend.name, href, panel_of(mix(book, blend, unit, batch, step), wording, put_right=False))
            )
    return rows


def costs_page(book: Book, wording: Wording) -> Page:
    """What each bowl of each blend costs, and the price that everything goes by."""
    address = "reports/costs/"
    bowls = [
        Row(name, href, (panel.label, panel.total, panel.cost or "no price"), panel.cost is None)
        for name, href, panel in _panels(book, wording, address)
    ]
    prices = []
    for product in sorted(book.products.values(), key=lambda each: (each.kind, each.name.casefold())):
        pack = product.pack
        price = wording.price(pack.price) if pack and pack.price is not None else "no price"
        day = wording.day(pack.priced_on) if pack and pack.priced_on else "–"
        net = str(pack.net) if pack else "–"
        href = relative(entry_address("product", product.id), address)
        prices.append(Row(product.name, href, (net, price, day), price == "no price"))
    return _page(
        address,
        "Report: costs",
        "What a bowl costs at every size of the ladder, by the house’s own prices.",
        [
            Table(
                "Bowls",
                "bowls",
                ("Blend", "Batch", "In the bowl", "Cost"),
                bowls,
                numbers=frozenset({1, 2, 3}),
            ),
            Table(
                "Prices",
                "prices",
                ("Product", "Net", "Price", "Priced on"),
                prices,
                numbers=frozenset({1, 2}),
            ),
        ],
    )


def weighing_page(book: Book, wording: Wording) -> Page:
    """Which sizes of which blend the scale can weigh honestly."""
    address = "reports/weighing/"
    good: list[Row] = []
    bad: list[Row] = []
    for name, href, panel in _panels(book, wording, address):
        row = Row(
            name,
            href,
            (panel.label, panel.worst_error, "yes" if panel.honest else panel.next_honest or "none found"),
            not panel.honest,
        )
        (good if panel.honest else bad).append(row)
    heads = ("Blend", "Batch", "Worst error", "Honest, or next honest batch")
    numbers = frozenset({1, 2})
    return _page(
        address,
        "Report: weighing",
        "How far rounding to the house’s scale takes each bowl off its recipe.",
        [
            Table(
                "Not honest", "not-honest", heads, bad, "Every size of every blend weighs honestly.", numbers
            ),
            Table("Honest", "honest", heads, good, numbers=numbers),
        ],
    )


def newest_stamp(book: Book) -> date | None:
    """The newest day that any entry carries: pages go by it, never by the clock."""
    days = []
    for _, entry in book.entries():
        reviewed, pack = getattr(entry, "reviewed", None), getattr(entry, "pack", None)
        days += [reviewed.on] if reviewed else []
        days += [pack.priced_on] if pack and pack.priced_on else []
    return max(days, default=None)


def dates_page(book: Book, wording: Wording) -> Page:
    """When each review falls due and each price goes stale, soonest first."""
    address = "reports/dates/"
    day = newest_stamp(book)
    reviews: list[tuple[date, Row]] = []
    prices: list[tuple[date, Row]] = []
    never = []
    for kind, entry in book.entries():
        href = relative(entry_address(kind, entry.id), address)
        due = review_due(getattr(entry, "reviewed", None), book.house.review_after)
        if isinstance(entry, Product):
            stale = stale_on(book, entry)
            if stale is not None:
                row = Row(entry.name, href, (wording.day(stale),), day is not None and stale <= day)
                prices.append((stale, row))
        elif due is None:
            never.append(Row(name_of(entry), href, (KIND_TITLES[kind],), True))
        else:
            late = due + timedelta(days=1)
            cells = (KIND_TITLES[kind], wording.day(late))
            reviews.append((late, Row(name_of(entry), href, cells, day is not None and late <= day)))
    reviews.sort(key=lambda pair: (pair[0], pair[1].name.casefold()))
    prices.sort(key=lambda pair: (pair[0], pair[1].name.casefold()))
    lead = "Soonest first. Marked rows were out of date"
    lead += f" on {wording.day(day)}, the newest day in the book." if day else "."
    return _page(
        address,
        "Report: out of date",
        lead,
        [
            Table("Never reviewed", "never", ("Entry", "Kind"), never, "Everything has been reviewed."),
            Table("Reviews", "reviews", ("Entry", "Kind", "Overdue from"), [row for _, row in reviews]),
            Table("Prices", "prices", ("Product", "Stale from"), [row for _, row in prices]),
        ],
    )
