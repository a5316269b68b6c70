"""``bowlbook new``: a commented entry to start from, which already passes the check."""

import json
import re
import sys
import unicodedata
from pathlib import Path
from string import Template

import click

from generator.book.book import Book
from generator.book.folder import FOLDER_OF, RESERVED
from generator.book.read_book import read_book
from generator.checks.day import today
from generator.commands.printer import recipes_option
from generator.entries.entry_id import LONGEST_ID
from generator.entries.product import Developer, Lightener
from generator.entries.words import read_name
from generator.reading.refusal import Refusal

STARTS = Path(__file__).parent / "starts"
PRODUCTS = ("lightener", "developer", "toner", "additive", "supply")
KINDS = ("house", *PRODUCTS, "blend", "technique", "situation", "class")


@click.command()
@click.argument("kind", type=click.Choice(KINDS), metavar="KIND")
@click.argument("name", metavar="NAME")
@recipes_option
@click.option("--id", "entry_id", metavar="ID", help="The file's name; else made from the name.")
def command(kind: str, name: str, recipes: Path, entry_id: str | None) -> None:
    """Write a commented entry to start from.

    KIND is house, lightener, developer, toner, additive, supply, blend, technique, situation or class.
    """
    try:
        name = read_name(name)
    except Refusal as refusal:
        raise click.UsageError(f"{refusal.message} {refusal.mend}") from refusal
    path = _path(kind, name, recipes, entry_id)
    text = Template((STARTS / f"{kind}.yml").read_text(encoding="utf-8")).substitute(
        name=_scalar(name), today=today().isoformat(), **_existing(kind, recipes)
    )
    path.parent.mkdir(parents=True, exist_ok=True)
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        click.echo(f"{path} is there already; nothing was written.", err=True)
        sys.exit(1)
    click.echo(f"Wrote {path}. Now make it yours, then: bowlbook check")


def _path(kind: str, name: str, recipes: Path, entry_id: str | None) -> Path:
    if kind == "house":
        return recipes / "house.yml"
    plain = unicodedata.normalize("NFKD", entry_id or name).encode("ascii", "ignore").decode().lower()
    made = re.sub("[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_ID].strip("-")
    if not made or RESERVED.fullmatch(made) or (entry_id and made != entry_id):
        raise click.UsageError("Give it an id of lower-case letters, digits and hyphens with --id.")
    return recipes / FOLDER_OF["product" if kind in PRODUCTS else kind] / f"{made}.yml"


def _scalar(text: str) -> str:
    """A name as YAML reads it back: plain where that is certain, in quotes else."""
    certain = re.fullmatch(r"[A-Za-z][\w ,()%'-]*", text) and text.lower() not in ("null", "true", "false")
    return text if certain else json.dumps(text, ensure_ascii=False)


def _existing(kind: str, recipes: Path) -> dict[str, str]:
    """The ids of entries that a new one of this kind refers to, out of the book at hand."""
    if kind == "house" or kind in PRODUCTS:
        return {}
    book = read_book(recipes).book
    if book is None:
        raise click.UsageError('The book has no house yet: bowlbook new house "Name of the house".')
    if kind == "blend":
        return _for_blend(book)
    if kind in ("technique", "situation"):
        blend = next(iter(book.blends.values()), None)
        if blend is None:
            raise click.UsageError(f'A {kind} needs a blend: bowlbook new blend "Name" first.')
        return {"blend": blend.id, "placement": (blend.suits.placement or ("foil",))[0]}
    technique = next(iter(book.techniques.values()), None)
    if technique is None:
        raise click.UsageError('Class notes need a technique: bowlbook new technique "Name" first.')
    return {"technique": technique.id}


def _for_blend(book: Book) -> dict[str, str]:
    lighteners = [each for each in book.products.values() if isinstance(each, Lightener)]
    developers = [each for each in book.products.values() if isinstance(each, Developer)]
    for lightener in lighteners:
        limit = min(lightener.developer_limit or 20, book.house.on_scalp_developer_limit)
        for developer in developers:
            if developer.volume <= limit:
                return {
                    "lightener": lightener.id,
                    "developer": developer.id,
                    "ratio": str(lightener.mixing_ratio.usual),
                    "placement": lightener.placement[0],
                    "lift": f"1-{min(3, lightener.lifts)}" if lightener.lifts > 1 else "1",
                }
    raise click.UsageError(
        'A blend needs a lightener and a developer: bowlbook new lightener "Name", '
        'bowlbook new developer "Name" first.'
    )
