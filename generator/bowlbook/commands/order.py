"""``bowlbook order``: what classes and a month's heads take, in whole containers, by supplier."""

import csv
import io
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TypeVar

import click

from bowlbook.book.book import Book
from bowlbook.commands.printer import echo, print_json, recipes_option, whole_book, wrong_use
from bowlbook.entries.entry import Entry
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.product import Supply, packs_of
from bowlbook.figures.bowl_plan import CannotPlan
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.kit import KitLine
from bowlbook.figures.order import Order, order
from bowlbook.figures.rounding import fixed
from bowlbook.figures.unit import weight_text
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.nearest import did_you_mean
from bowlbook.wording.missing import no_such
from bowlbook.wording.service import cannot_remarks

E = TypeVar("E", bound=Entry)
MOST_HEADS = 10_000
NO_SUPPLIER = "No supplier written"
COLUMNS = ("supplier", "article", "product", "name", "containers", "net", "needs", "cost", "currency")


@click.command()
@click.option(
    "--class", "classes", multiple=True, metavar="CLASS[=LEARNERS]", help="A class; else as planned."
)
@click.option("--heads", multiple=True, metavar="TECHNIQUE=N", help="How many heads of a technique.")
@click.option("--length", type=click.Choice([each.replace("_", "-") for each in LENGTHS]), default="medium")
@click.option("--density", type=click.Choice(DENSITIES), default="medium")
@click.option("--from", "suppliers", multiple=True, metavar="SUPPLIER", help="Take what this one sells.")
@click.option("--cheapest", is_flag=True, help="Else take the pack that costs least for what is needed.")
@recipes_option
@click.option("--csv", "as_csv", is_flag=True, help="Print the order as a table.")
@click.option("--json", "as_json", is_flag=True, help="Print the order as JSON.")
def command(
    classes: tuple[str, ...],
    heads: tuple[str, ...],
    length: str,
    density: str,
    suppliers: tuple[str, ...],
    cheapest: bool,
    recipes: Path,
    as_csv: bool,
    as_json: bool,
) -> None:
    """Work out what to order from each supplier, for classes and for a month's heads.

    All of them together are rounded up to whole containers once. What stands on the shelf is not known here.
    """
    if not classes and not heads:
        raise click.UsageError("Say what the order is for: --class first-painting=8, --heads painting=40.")
    if as_csv and as_json:
        raise click.UsageError("Say one of --csv and --json.")
    book = whole_book(recipes)
    _refuse_unknown(book, suppliers)
    taught = [
        (notes, notes.learners if count is None else count)
        for notes, count in _counted(classes, "class notes", book.classes)
    ]
    served = []
    for technique, count in _counted(heads, "technique", book.techniques):
        if count is None:
            raise click.UsageError(f"How many heads? Write {technique.id}=40.")
        served.append((technique, count))
    with wrong_use(CannotPlan):
        found = order(book, taught, served, (length.replace("-", "_"), density), suppliers, cheapest)
    if as_json:
        print_json(order_data(book, found))
    elif as_csv:
        echo(_table(book, found), nl=False)
        for remark in cannot_remarks(bowl for _, bowl in found.unweighed):
            echo(f"Not in this order: {remark}", err=True)
    else:
        echo(_text(book, found))


def _refuse_unknown(book: Book, suppliers: tuple[str, ...]) -> None:
    sold = {pack.supplier for each in book.products.values() for _, pack in packs_of(each) if pack.supplier}
    for name in suppliers:
        if bare_name(name) not in map(bare_name, sold):
            hint = did_you_mean(name, sold) or f"Suppliers: {', '.join(sorted(sold))}."
            raise click.UsageError(f'No pack in the book is from "{name}". {hint}')


def _counted(given: tuple[str, ...], kind: str, entries: Mapping[str, E]) -> Iterator[tuple[E, int | None]]:
    for each in given:
        entry_id, sign, count = each.partition("=")
        if entry_id not in entries:
            raise click.UsageError(no_such(kind, entry_id, entries))
        # Cut to nine digits before it is converted: there is no limit to what may be typed.
        if sign and not (count.isascii() and count.isdigit() and 1 <= int(count[:9]) <= MOST_HEADS):
            raise click.UsageError(f'"{count}" is no number from 1 to {MOST_HEADS}.')
        yield entries[entry_id], int(count) if sign else None


def order_data(book: Book, found: Order) -> dict[str, object]:
    """The order as plain data; ``needs`` in grams, or in pieces for a supply; costs as decimal strings."""
    return {
        "suppliers": [
            {
                "supplier": each.supplier or None,
                "lines": [_row(book, each.supplier, line, _needs(line)) for line in each.lines],
                "cost": decimal_of(each.cost, book.house.currency),
            }
            for each in found.suppliers
        ],
        "cannot_weigh": cannot_remarks(bowl for _, bowl in found.unweighed),
        "known_cost": decimal_of(found.cost, book.house.currency),
        "currency": book.house.currency,
    }


def _row(book: Book, supplier: str, line: KitLine, needs: str) -> dict[str, object]:
    pack = line.product.pack
    return {
        "supplier": supplier or None,
        "article": pack.article if pack else None,
        "product": line.product.id,
        "name": line.product.name,
        "containers": line.containers,
        "net": str(pack.net) if pack else None,
        "needs": needs,
        "cost": decimal_of(line.cost, book.house.currency),
        "currency": book.house.currency,
    }


def _needs(line: KitLine) -> str:
    """Grams, or pieces of a supply, rounded half up."""
    return fixed(line.need, 0) + (" pieces" if isinstance(line.product, Supply) else " g")


def _shown(book: Book, supplier: str, line: KitLine) -> dict[str, object]:
    """A row for a person: its need in the unit that the house reads."""
    is_supply = isinstance(line.product, Supply)
    return _row(book, supplier, line, _needs(line) if is_supply else weight_text(book.house, line.need, 0))


def _table(book: Book, found: Order) -> str:
    """The order as CSV, a row for each product."""
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(_shown(book, each.supplier, line) for each in found.suppliers for line in each.lines)
    return text.getvalue()


def _text(book: Book, found: Order) -> str:
    currency = book.house.currency
    lines = []
    for each in found.suppliers:
        cost = decimal_of(each.cost, currency)
        lines.append((each.supplier or NO_SUPPLIER) + (f": {cost} {currency}" if cost else ""))
        for line in each.lines:
            row = _shown(book, each.supplier, line)
            take = f"{row['containers']} x {row['net']}" if row["containers"] else "no pack written"
            article = f", article {row['article']}" if row["article"] else ""
            price = f", {row['cost']} {currency}" if row["cost"] else ""
            lines.append(f"  {take}  {row['name']}{article}, needs {row['needs']}{price}")
    lines += [f"Not in this order: {each}" for each in cannot_remarks(b for _, b in found.unweighed)]
    total = decimal_of(found.cost, currency)
    unpriced = sum(line.cost is None for each in found.suppliers for line in each.lines)
    if total:
        without = f", without {unpriced} that have no price." if unpriced else "."
        lines.append(f"Total: {total} {currency}{without}")
    return "\n".join(lines)
