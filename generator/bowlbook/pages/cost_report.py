"""The report on costs: what a bowl and a service cost, dearest first, and the prices behind it."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bars import BarRow, Bars, bars_of
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.report_page import COSTS, BowlReportRow, ServiceReportRow, report_pages
from bowlbook.pages.table import ReportTable, TableRow
from bowlbook.wording.locale_format import LocaleFormat

IN_A_BOWL = (("base", "lightener or toner"), ("developer", "developer"), ("additive", "additive"))
IN_A_SERVICE = (("base", "used"), ("developer", "supplies"), ("unused", "for waste and left over"))


def cost_report(
    book: Book, formats: LocaleFormat, bowls: Sequence[BowlReportRow], services: Sequence[ServiceReportRow]
) -> Iterator[Page]:
    """The report's pages: bars above on the first, the tables below them."""
    charts = [each for each in (_bowl_bars(formats, bowls), _service_bars(services)) if each]
    tables = [*_bowl_tables(formats, bowls), _prices(book, formats)]
    ranges = [f"{each.title}: {_range(each)}." for each in charts]
    drawn = [Heading(each.anchor, each.title) for each in charts]
    lead = " ".join(ranges) or "No bowl has a price."
    return report_pages(
        COSTS, "Report: costs", f"{lead} By the prices in the book.", tables, drawn, charts=charts
    )


def _range(bars: Bars) -> str:
    most, least = bars.seen[0].answer, (bars.more or bars.seen)[-1].answer
    return most if most == least else f"{least} to {most}"


def _bowl_bars(formats: LocaleFormat, bowls: Sequence[BowlReportRow]) -> Bars | None:
    """Each blend at the size that most blends have: of several, the one in the middle of the first unit."""
    priced = [each for each in bowls if each.cost is not None]
    if not priced:
        return None
    count = Counter(each.label for each in priced)
    shared = {each.label: each.unit for each in priced if count[each.label] == max(count.values())}
    first = next(iter(shared.values()))
    labels = [label for label, unit in shared.items() if unit == first]
    label = labels[len(labels) // 2]
    rows = [_bowl_row(formats, each) for each in priced if each.label == label]
    shown, every = ({each.href: each.name for each in some} for some in (rows, bowls))
    others = [name for href, name in every.items() if href not in shown]
    remark = f"Without a price, or not mixed at this size: {', '.join(others)}." if others else ""
    return bars_of(f"A bowl of {label}", "bowl", IN_A_BOWL, rows, remark)


def _bowl_row(formats: LocaleFormat, bowl: BowlReportRow) -> BarRow:
    answer = formats.money(sum(bowl.spent)) or ""
    return BarRow(bowl.name, bowl.href, answer, (bowl.cost or "").removeprefix(answer).strip(), bowl.spent)


def _service_bars(services: Sequence[ServiceReportRow]) -> Bars | None:
    if not services:
        return None
    hair = Counter(each.hair for each in services).most_common(1)[0][0]
    rows = [
        BarRow(each.name, each.href, each.total, each.without, each.spent)
        for each in services
        if each.hair == hair
    ]
    return bars_of(f"A service, {hair.lower()}", "service", IN_A_SERVICE, rows)


def _bowl_tables(formats: LocaleFormat, bowls: Iterable[BowlReportRow]) -> Iterator[ReportTable]:
    """A table for each unit: a row for each blend, a column for each size."""
    by_unit: dict[str, dict[str, dict[str, BowlReportRow]]] = {}
    for each in bowls:
        by_unit.setdefault(each.unit, {}).setdefault(each.href, {})[each.label] = each
    for unit, blends in by_unit.items():
        sizes = {label: each.size for own in blends.values() for label, each in own.items()}
        labels = sorted(sizes, key=lambda label: sizes[label])
        rows = tuple(_sizes_row(formats, own, labels) for own in blends.values())
        numbers = frozenset(range(1, len(labels) + 1))
        yield ReportTable(f"Every size in {unit}", f"every-{unit}", ("Blend", *labels), rows, numbers=numbers)


def _sizes_row(formats: LocaleFormat, own: Mapping[str, BowlReportRow], labels: Sequence[str]) -> TableRow:
    bowls = [own.get(label) for label in labels]
    cells = tuple("–" if each is None else _cell(formats, each) for each in bowls)
    first = next(iter(own.values()))
    return TableRow(first.name, first.href, cells, any(each.cost is None for each in own.values()))


def _cell(formats: LocaleFormat, bowl: BowlReportRow) -> str:
    money = formats.money(sum(bowl.spent)) or ""
    if bowl.cost is None:
        return "no price"
    return money if bowl.cost == money else f"{money} in part"


def _prices(book: Book, formats: LocaleFormat) -> ReportTable:
    prices = []
    in_use = current(book.products).values()
    for product in sorted(in_use, key=lambda each: (each.kind, each.name.casefold())):
        pack = product.pack
        price = formats.price(pack.price) if pack and pack.price is not None else "no price"
        day = formats.day(pack.priced_on) if pack and pack.priced_on else "–"
        net = str(pack.net) if pack else "–"
        href = relative(entry_address("product", product.id), COSTS)
        prices.append(TableRow(product.name, href, (net, price, day), price == "no price"))
    heads = ("Product", "Net", "Price", "Priced on")
    return ReportTable("Prices", "prices", heads, tuple(prices), numbers=frozenset({1, 2}))
