"""``bowlbook prices``: what a new price list does to every bowl, service and kit; and taking it over."""

import json
import os
import sys
import tempfile
from pathlib import Path

import click

from generator.book.book import Book
from generator.book.price_list import NewPrice, as_stored, is_shared, read_price_list, taken_over, with_prices
from generator.commands.diff import difference_data
from generator.commands.printer import echo, print_findings, recipes_option, whole_book
from generator.figures.difference import differences
from generator.pages.difference_words import fact_sentence, in_short, title_of
from generator.reading.finding import Finding
from generator.reading.refusal import Refusal


@click.command()
@click.argument("price_list", metavar="LIST.csv", type=click.Path(path_type=Path))
@recipes_option
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
    book = whole_book(recipes)
    prices, findings = read_price_list(price_list, book)
    texts, more = _texts(book, prices)
    if take_over and not shared_too:
        more += _of_others(book, prices)
    if findings or more:
        print_findings([*findings, *more], err=True)
        sys.exit(1)
    found = differences(book, with_prices(book, prices))
    if as_json:
        echo(json.dumps([difference_data(book, each) for each in found], indent=2, ensure_ascii=False))
    else:
        for each in found:
            echo(title_of(each))
            for fact in each.facts:
                echo(f"  {fact_sentence(fact)}")
        echo(in_short(found))
    if take_over:
        _write(texts)
        echo(f"Took over {len(texts)} prices. Now: bowlbook check", err=as_json)
    elif found and not as_json:
        echo("Nothing was written. To take the prices over, add --take-over.")


def _texts(book: Book, prices: list[NewPrice]) -> tuple[dict[Path, bytes], list[Finding]]:
    """Each product's file with its new content, and a finding for each that cannot be changed for certain."""
    texts: dict[Path, bytes] = {}
    findings: list[Finding] = []
    for each in prices:
        product = book.products[each.product]
        try:
            path = Path(product.source.path)
            texts[path] = as_stored(path.read_bytes(), taken_over(product, each))
        except Refusal as refusal:
            findings.append(product.source.finding(("pack",), refusal.code, str(refusal), refusal.mend))
    return texts, findings


def _of_others(book: Book, prices: list[NewPrice]) -> list[Finding]:
    """A finding for each price of a shared product: written there it counts in every book."""
    return [
        book.products[each.product].source.finding(
            ("pack",),
            "bad-price-list",
            "This product is shared: its price counts in every book that takes it.",
            "Add --shared to change it for all of them, or take the row out of the list.",
        )
        for each in prices
        if is_shared(book, each.product)
    ]


def _write(texts: dict[Path, bytes]) -> None:
    """Write every file beside its old one first, then put them all in place; on a fault all go back."""
    made: list[tuple[Path, Path]] = []
    kept = {path: path.read_bytes() for path in texts}
    done: list[Path] = []
    try:
        for path, content in texts.items():
            handle, name = tempfile.mkstemp(prefix=f".{path.stem}-", dir=path.parent)
            made.append((Path(name), path))
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            Path(name).chmod(path.stat().st_mode & 0o777)
        for beside, path in made:
            beside.replace(path)
            done.append(path)
    except OSError as error:
        for path in done:
            path.write_bytes(kept[path])
        echo(f"Nothing was taken over. {error}.", err=True)
        sys.exit(1)
    finally:
        for beside, _ in made:
            beside.unlink(missing_ok=True)
