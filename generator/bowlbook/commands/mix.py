"""``bowlbook mix``: one bowl of a blend, in any size, on any scale, or corrected after a pour."""

import sys
from pathlib import Path

import click

from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book, read_part
from bowlbook.cache.cache import Cache, open_cache
from bowlbook.commands.bowl_report import bowl_data, bowl_text
from bowlbook.commands.poured import correction_of
from bowlbook.commands.printer import echo, print_findings, recipes_option
from bowlbook.entries.blend import Blend
from bowlbook.figures.asked_bowl import asked_bowl
from bowlbook.figures.bowl import Bowl, CannotWeigh, ladder_of, mix
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.reading.amount import Mass
from bowlbook.reading.read_amount import read_mass
from bowlbook.reading.refusal import Refusal
from bowlbook.wording.missing import no_such, retired_sentences


def _weight(ctx: click.Context, param: click.Parameter, value: str | None) -> Mass | None:
    """An option's weight with its unit, such as 0.5oz or 47g."""
    if value is None:
        return None
    try:
        return read_mass(value)
    except Refusal as refusal:
        raise click.BadParameter(f"{refusal.message} {refusal.mend}", ctx, param) from refusal


@click.command()
@click.argument("blend_id", metavar="BLEND")
@click.option("--batch", callback=_weight, metavar="0.5oz", help="All the lightener together.")
@click.option("--step", callback=_weight, metavar="0.05oz", help="The scale's step; else the house's.")
@click.option("--developer", metavar="ID", help="One of the blend's developers; else its own.")
@click.option(
    "--poured",
    multiple=True,
    metavar="PRODUCT=0.45oz",
    help="What is in the bowl of it: says what to add now. What is listed before it is in as planned.",
)
@click.option("--scale-shows", "shows", callback=_weight, metavar="1.95oz", help="The scale now, bowl tared.")
@click.option("--after", metavar="PRODUCT", help="The pour that --scale-shows was read after.")
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the bowl as JSON.")
def command(
    blend_id: str,
    batch: Mass | None,
    step: Mass | None,
    developer: str | None,
    poured: tuple[str, ...],
    shows: Mass | None,
    after: str | None,
    recipes: Path,
    as_json: bool,
) -> None:
    """Work out one bowl of a blend: what to weigh, and what the scale shows after each pour."""
    with open_cache(recipes) as cache:
        # Only the entries that this blend reaches are read, where that is certain to give the same bowl.
        book = read_part(recipes, "blend", blend_id, cache) or _whole_book_with(recipes, blend_id, cache)
        blend = book.blends[blend_id]
        for sentence in retired_sentences(book, blend):
            echo(sentence, err=True)
        bowl = _bowl(book, blend, batch, step, developer)
        correction = correction_of(bowl, poured, shows, after)
        corrected = correction and mix(book, blend, bowl.unit, correction.batch, bowl.step, bowl.developer)
        if as_json:
            import json  # only where it is asked for

            click.echo(json.dumps(bowl_data(book, bowl, correction, corrected), indent=2, ensure_ascii=False))
        else:
            click.echo(bowl_text(book, bowl, correction, corrected))


def _whole_book_with(recipes: Path, blend_id: str, cache: Cache) -> Book:
    """The whole book with this blend in it. Without one the command ends with the book's errors, if it has
    any, or with the nearest name."""
    reading = read_book(recipes, cache=cache)
    errors = [finding for finding in reading.findings if finding.severity == "error"]
    book = reading.book
    if book is None or (blend_id not in book.blends and errors):
        print_findings(errors, err=True)
        sys.exit(1)
    if blend_id not in book.blends:
        raise click.UsageError(no_such("blend", blend_id, book.blends))
    return book


def _bowl(book: Book, blend: Blend, batch: Mass | None, step: Mass | None, developer: str | None) -> Bowl:
    if batch is None:
        sizes = ladder_of(book, blend)
        if not sizes:
            raise click.UsageError("The house has no batch sizes; give --batch.")
        unit, size, _ = sizes[0]
        batch = Mass(size, unit)
    try:
        return asked_bowl(book, blend, batch, step, developer)
    except Refusal as refusal:
        raise click.UsageError(f"{refusal.message} {refusal.mend}".rstrip()) from refusal
    except CannotWeigh as zero:
        nearest = zero.next_weighable_batch
        advice = (
            f" The nearest size this scale can weigh is {fixed(nearest, decimals_of(zero.step))} {zero.unit}."
            if nearest is not None
            else ""
        )
        raise click.UsageError(f"{zero}.{advice}") from zero
