"""``bowlbook kit``: what a class needs for a number of learners, in whole containers, and its cost."""

from fractions import Fraction
from pathlib import Path

import click

from bowlbook.book.book import Book
from bowlbook.commands.printer import print_json, recipes_option, whole_book, wrong_use
from bowlbook.entries.product import Supply
from bowlbook.figures.bowl_plan import CannotPlan
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.kit import Kit, KitLine, kit, kit_plan, need_text
from bowlbook.figures.rounding import fixed
from bowlbook.reading.amount import counted
from bowlbook.wording.amount import measure_words
from bowlbook.wording.cost import without_phrase
from bowlbook.wording.missing import no_such
from bowlbook.wording.service import cannot_remarks


@click.command()
@click.argument("class_id", metavar="CLASS")
@click.option("--learners", type=int, metavar="N", help="How many come; else as planned.")
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the kit as JSON.")
def command(class_id: str, learners: int | None, recipes: Path, as_json: bool) -> None:
    """Work out the kit of a class."""
    book = whole_book(recipes)
    notes = book.classes.get(class_id)
    if notes is None:
        raise click.UsageError(no_such("class notes", class_id, book.classes))
    with wrong_use(CannotPlan):
        found = kit(kit_plan(book, notes), notes.learners if learners is None else learners)
    if as_json:
        print_json(kit_data(book, class_id, found))
    else:
        click.echo(_text(book, notes.name, found))


def kit_data(book: Book, class_id: str, found: Kit) -> dict[str, object]:
    """The kit as plain data; needs and what is left over in grams, or in pieces for a supply."""
    return {
        "class": class_id,
        "learners": found.learners,
        "heads": list(found.heads),
        "all_heads": found.all_heads,
        "lines": [
            {
                "product": line.product.id,
                "need": _amount(line, line.need),
                "containers": line.containers,
                "left_over": None if line.left_over is None else _amount(line, line.left_over),
                "cost": _cost(book, line.cost),
            }
            for line in found.lines
        ],
        "cannot_weigh": cannot_remarks(bowl for _, bowl in found.unweighed),
        "cost": _cost(book, found.cost),
        "cost_per_learner": _cost(book, found.cost_per_learner),
        "known_cost": _cost(book, found.known),
        "without_price": [each.id for each in found.unpriced],
        "currency": book.house.currency,
    }


def _amount(line: KitLine, number: Fraction) -> str:
    return counted(number, "piece") if isinstance(line.product, Supply) else f"{fixed(number, 1)} g"


def _needs(book: Book, line: KitLine) -> str:
    """What a line needs, as the house reads it: with its own measure beside the weight, where it has one."""
    needs = need_text(book.house, line)
    if isinstance(line.product, Supply):
        return needs
    measure = measure_words(book.house.measures, line.product, line.need)
    return f"{needs} ({measure})" if measure else needs


def _cost(book: Book, minor: int | None) -> str | None:
    return decimal_of(minor, book.house.currency)


def _text(book: Book, name: str, found: Kit) -> str:
    lines = [f"{name}, {counted(found.learners, 'learner')}, {counted(found.all_heads, 'head')}"]
    for line in found.lines:
        pack, cost = line.product.pack, _cost(book, line.cost)
        take = f"{line.containers} x {pack.net}" if pack and line.containers is not None else "no pack"
        price = f", {cost} {book.house.currency}" if cost else ""
        lines.append(f"  {line.product.name}: {take}, needs {_needs(book, line)}{price}")
    # Next to the cost, which is without them.
    lines += [f"Not in this kit: {each}" for each in cannot_remarks(bowl for _, bowl in found.unweighed)]
    if found.known is not None:
        each = _cost(book, found.cost_per_learner)
        cost = f"{_cost(book, found.known)} {book.house.currency}"
        missing = without_phrase(found.unpriced, [bowl.blend for _, bowl in found.unweighed])
        lines.append(f"Cost: {cost}{missing}" + (f"; {each} for each learner." if each else "."))
    return "\n".join(lines)
