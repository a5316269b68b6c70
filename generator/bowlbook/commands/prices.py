"""``bowlbook prices``: the effect of a new price list on every bowl, service and kit, and writing it."""

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import click

from bowlbook.book.book import Book
from bowlbook.book.new_price import NewPrice, is_shared
from bowlbook.book.pack_text import Repriced, repriced
from bowlbook.book.price_list import read_price_list
from bowlbook.book.replacing import NotReplaced, finish, replace_all
from bowlbook.checks import found_by, incomplete_pack, stale_price
from bowlbook.checks.day import today
from bowlbook.commands import printer
from bowlbook.commands.diff import difference_data, difference_lines
from bowlbook.entries.product import Product, packs_of
from bowlbook.figures.cost import minor_units
from bowlbook.figures.difference import differences
from bowlbook.reading.amount import Mass, Volume, counted
from bowlbook.reading.finding import Finding, sorted_findings
from bowlbook.reading.refusal import Refusal

COLUMN_OF = {"net": "net", "price": "price", "priced_on": "date"}


@click.command()
@click.argument("price_list", metavar="LIST.csv", type=printer.PATH)
@printer.recipes_option
@click.option("--take-over", is_flag=True, help="Write the new prices into the products.")
@click.option(
    "--shared", "shared_too", is_flag=True, help="Write those of shared products too, for every book."
)
@click.option("--json", "as_json", is_flag=True, help="Print what changes as JSON.")
def command(price_list: Path, recipes: Path, take_over: bool, shared_too: bool, as_json: bool) -> None:
    """Say what a price list does to every bowl, service and kit.

    LIST.csv has the columns product, net, price, date. Nothing is written without --take-over; then either
    every product is, or none.
    """
    _finish_interrupted(recipes)
    book = printer.whole_book(recipes)
    prices, findings = read_price_list(price_list, book, today(), minor_units(book.house.currency))
    packs, more = _packs(book, prices)
    findings = sorted_findings([*findings, *more])
    # Found here and not while reading: without --take-over such a row does no harm.
    if take_over and not shared_too:
        findings += _shared_findings(book, prices)
    if findings:
        printer.print_findings(findings, err=True)
    if any(finding.severity == "error" for finding in findings):
        sys.exit(1)
    # Computed before anything is written, so that it is the same with and without --take-over.
    products = {**book.products, **{each.product.id: each.product for each in packs}}
    found = differences(book, replace(book, products=products))
    if as_json:
        printer.print_json([difference_data(each) for each in found])
    else:
        printer.echo("\n".join(difference_lines(found)))
    if take_over:
        with printer.stopped_by(NotReplaced):
            replace_all(recipes, {each.path: (each.old, each.new) for each in packs})
        printer.echo(f"Took over {counted(len(prices), 'price')}. Now: bowlbook check", err=as_json)
    elif found and not as_json:
        printer.echo("Nothing was written. To take the prices over, add --take-over.")


def _finish_interrupted(recipes: Path) -> None:
    """Finish writing a price list whose run was killed half way."""
    with printer.stopped_by(NotReplaced):
        left = finish(recipes)
    if left is not None:
        printer.echo(
            "An earlier price list, interrupted while it was taken over, was finished first.", err=True
        )
        for path in left:
            printer.echo(f"{path} was changed since and left as it is: look at its price.", err=True)


def _packs(book: Book, prices: list[NewPrice]) -> tuple[list[Repriced], list[Finding]]:
    """Each product with its new pack, and findings about it at the row of the list."""
    packs: dict[str, Repriced] = {}
    findings: list[Finding] = []
    for price in prices:
        product = book.products[price.product]
        try:
            made = repriced(product, price, packs.get(price.product))
        except Refusal as refusal:
            findings.append(product.source.finding(("pack",), refusal.code, refusal.message, refusal.mend))
            continue
        packs[price.product] = made
        findings += list(_check_findings(book, made.product, price)) or list(_unit_findings(product, price))
    return list(packs.values()), findings


def _check_findings(book: Book, product: Product, price: NewPrice) -> Iterator[Finding]:
    """Findings of the checks of packs in a product with its new pack, at the cells of the row."""
    columns = {product.source.place_of((*price.pack, key)): column for key, column in COLUMN_OF.items()}
    for check in (incomplete_pack, stale_price):
        for each in found_by(check, book, product, today()):
            refusal = Refusal(each.code, each.message, each.mend)
            yield price.row.finding(columns.get(each.place, "product"), refusal, each.severity)


def _unit_findings(product: Product, price: NewPrice) -> Iterator[Finding]:
    """A finding where a weight replaces a volume or the reverse: 32 oz for 32 fl oz is another price."""
    pack = dict(packs_of(product)).get(price.pack)
    net = pack.net if pack else None
    if net is None or type(net) is type(price.net):
        return
    kinds: dict[type, str] = {Mass: "a weight", Volume: "a volume"}
    was, is_ = (kinds.get(type(each), "a number of pieces") for each in (net, price.net))
    mend = "Look at the pack. If it is measured in another way now, change it in the product's own file."
    if isinstance(net, Volume) and isinstance(price.net, Mass) and price.net.unit == "oz":
        mend = f"If fluid ounces are meant, write {str(price.net).replace('oz', 'fl oz')}. {mend}"
    message = f"The book's pack is {net}, {was}; {price.net} is {is_}."
    yield price.row.finding("net", Refusal("wrong-unit", message, mend))


def _shared_findings(book: Book, prices: list[NewPrice]) -> list[Finding]:
    """A finding for each price of a shared product, because writing it changes every book."""
    message = "This product is shared: its price counts in every book that takes it."
    mend = "Add --shared to change it for all of them, or take the row out of the list."
    return [
        book.products[each.product].source.finding(("pack",), "bad-price-list", message, mend)
        for each in prices
        if is_shared(book, each.product)
    ]
