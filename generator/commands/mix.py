"""``bowlbook mix``: one bowl of a blend, in any size, on any scale, and a bowl put right."""

import json
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import click

from generator.book.book import Book
from generator.book.read_book import read_book, read_part
from generator.commands.printer import print_findings, recipes_option
from generator.entries.blend import Blend
from generator.figures.bowl import Bowl, CannotWeigh, developers_of, ladder_of, mix
from generator.figures.correction import Correction
from generator.figures.cost import decimal_of
from generator.figures.rounding import decimals_of, fixed
from generator.figures.unit import in_unit
from generator.reading.amount import Mass, plain, read_mass
from generator.reading.nearest import did_you_mean
from generator.reading.refusal import Refusal


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
    help="What a pour really weighed: shows what the others must now be.",
)
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the bowl as JSON.")
def command(
    blend_id: str,
    batch: Mass | None,
    step: Mass | None,
    developer: str | None,
    poured: tuple[str, ...],
    recipes: Path,
    as_json: bool,
) -> None:
    """Work out one bowl of a blend: what to weigh, and what the scale shows after each pour."""
    book = read_part(recipes, "blend", blend_id) or _book_with(recipes, blend_id)
    blend = book.blends[blend_id]
    bowl = _bowl(book, blend, batch, step, developer)
    correction = _correction(bowl, poured)
    if as_json:
        click.echo(json.dumps(bowl_data(book, bowl, correction), indent=2, ensure_ascii=False))
    else:
        click.echo(_text(book, bowl, correction))


def _book_with(recipes: Path, blend_id: str) -> Book:
    """The book with this blend in it. Where it has none, says why: the book's errors, or the nearest name."""
    reading = read_book(recipes)
    errors = [finding for finding in reading.findings if finding.severity == "error"]
    book = reading.book
    if book is None or (blend_id not in book.blends and errors):
        print_findings(errors, err=True)
        sys.exit(1)
    if blend_id not in book.blends:
        raise click.UsageError(f'There is no blend "{blend_id}". {did_you_mean(blend_id, book.blends)}')
    return book


def _bowl(book: Book, blend: Blend, batch: Mass | None, step: Mass | None, developer: str | None) -> Bowl:
    if batch is None:
        sizes = ladder_of(book, blend)
        if not sizes:
            raise click.UsageError("The house has no batch sizes; give --batch.")
        unit, size, _ = sizes[0]
    else:
        unit = "oz" if batch.unit in ("oz", "lb") else "g"
        size = in_unit(batch, unit)
    if step is not None and (step.unit in ("oz", "lb")) != (unit == "oz"):
        raise click.UsageError(f"The batch is in {unit} and the step in {step.unit}; give --step in {unit}.")
    house_step = book.house.scale_step.of(unit)
    scale = in_unit(step, unit) if step is not None else house_step
    if scale is None:
        raise click.UsageError(f"The house has no scale step for {unit}; give --step.")
    choices = developers_of(book, blend)
    chosen = next((each for each in choices if each.id == developer), None)
    if developer is not None and chosen is None:
        ids = [each.id for each in choices]
        raise click.UsageError(
            f'"{developer}" is not a developer of {blend.name}. {did_you_mean(developer, ids)}'
        )
    try:
        return mix(book, blend, unit, size, scale, chosen)
    except CannotWeigh as zero:
        following = zero.next_honest_batch
        advice = (
            f" The next honest batch is {fixed(following, decimals_of(scale))} {unit}."
            if following is not None
            else ""
        )
        raise click.UsageError(f"{zero}.{advice}") from zero


def _correction(bowl: Bowl, poured: tuple[str, ...]) -> Correction | None:
    if not poured:
        return None
    ids = [each.product.id for each in bowl.pours]
    weights: dict[int, Fraction] = {}
    for text in poured:
        product, sign, weight = text.partition("=")
        if not sign or product not in ids:
            raise click.UsageError(
                f'--poured takes PRODUCT=WEIGHT; "{product}" is not in this bowl. '
                f"{did_you_mean(product, ids)}"
            )
        try:
            weights[ids.index(product)] = in_unit(read_mass(weight), bowl.unit)
        except Refusal as refusal:
            raise click.UsageError(f"{refusal.message} {refusal.mend}") from refusal
    try:
        return bowl.weighing.put_right(weights)
    except ValueError as error:
        raise click.UsageError(f"{error}.") from error


def bowl_data(book: Book, bowl: Bowl, correction: Correction | None = None) -> dict[str, Any]:
    """The bowl as plain data: amounts are decimal strings in the batch's unit."""
    places = decimals_of(bowl.step)

    def cost(minor: int | None) -> str | None:
        return decimal_of(minor, book.house.currency)

    def weight(number: Fraction) -> str:
        return fixed(number, places)

    data: dict[str, Any] = {
        "blend": bowl.blend.id,
        "batch": f"{plain(bowl.batch)} {bowl.unit}",
        "step": f"{plain(bowl.step)} {bowl.unit}",
        "pours": [
            {
                "product": each.product.id,
                "role": each.role,
                "exact": plain(each.reading.exact),
                "weigh": weight(each.reading.weigh),
                "scale_shows": weight(each.scale_shows),
                "millilitres": None if each.millilitres is None else fixed(each.millilitres, 1),
                "cost": cost(each.cost),
            }
            for each in bowl.pours
        ],
        "bowl_total": weight(bowl.total),
        "peroxide_percent": fixed(bowl.peroxide, 2),
        "worst_error_percent": fixed(bowl.worst_error * 100, 2),
        "within_tolerance": bowl.honest,
        "next_honest_batch": (None if bowl.next_honest_batch is None else weight(bowl.next_honest_batch)),
        "cost": cost(bowl.bill.total if bowl.bill else None),
        "currency": book.house.currency,
    }
    if correction is not None:
        data["corrected"] = {
            "batch": f"{weight(correction.batch)} {bowl.unit}",
            "pours": [
                {
                    "product": each.product.id,
                    "in_bowl": weight(now.in_bowl),
                    "must_be": weight(now.must_be),
                    "add": weight(now.add),
                }
                for each, now in zip(bowl.pours, correction.pours, strict=True)
            ],
        }
    return data


def _text(book: Book, bowl: Bowl, correction: Correction | None) -> str:
    data = bowl_data(book, bowl, correction)
    width = max(len(each.product.name) for each in bowl.pours)
    lines = [
        f"{bowl.blend.name}: batch {data['batch']}, {bowl.developer.name}, scale steps of {data['step']}",
        f"  {'':{width}}  {'weigh':>8}  scale shows",
    ]
    for each, row in zip(bowl.pours, data["pours"], strict=True):
        volume = f"  ({row['millilitres']} mL)" if row["millilitres"] else ""
        lines.append(f"  {each.product.name:{width}}  {row['weigh']:>8}  {row['scale_shows']:>11}{volume}")
    lines.append(f"In the bowl: {data['bowl_total']} {bowl.unit}, {data['peroxide_percent']} % peroxide.")
    if not bowl.honest:
        following = data["next_honest_batch"]
        after = f"; the next honest batch is {following} {bowl.unit}" if following else ""
        lines.append(f"Rounding puts this {data['worst_error_percent']} % off the recipe{after}.")
    if data["cost"] is not None:
        lines.append(f"Cost: {data['cost']} {data['currency']}")
    if correction is not None:
        lines.append(f"To keep the recipe with what is in the bowl, make it {data['corrected']['batch']}:")
        for each, now in zip(bowl.pours, data["corrected"]["pours"], strict=True):
            lines.append(f"  {each.product.name:{width}}  add {now['add']} to reach {now['must_be']}")
    lines.append("Follow the makers' instructions first; gloves, ventilation, strand test.")
    return "\n".join(lines)
