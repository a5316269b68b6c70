"""``bowlbook plan``: what a service takes: bowls in order, weigh-outs, supplies, cost, what is left over."""

import json
from pathlib import Path
from typing import Any

import click

from generator.book.book import Book
from generator.commands.mix import bowl_data
from generator.commands.printer import recipes_option, whole_book
from generator.entries.hair_amount import DENSITIES, LENGTHS
from generator.figures.bowl import CannotWeigh
from generator.figures.cost import decimal_of
from generator.figures.rounding import decimals_of, fixed
from generator.figures.service import CannotPlan, FreshBowl, Service, plan
from generator.reading.amount import Count, counted, plain
from generator.reading.nearest import did_you_mean


@click.command()
@click.argument("technique_id", metavar="TECHNIQUE")
@click.option("--length", type=click.Choice([each.replace("_", "-") for each in LENGTHS]), default="medium")
@click.option("--density", type=click.Choice(DENSITIES), default="medium")
@click.option("--unit", type=click.Choice(["oz", "g"]), default="oz", show_default=True)
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON.")
def command(technique_id: str, length: str, density: str, unit: str, recipes: Path, as_json: bool) -> None:
    """Work out what a service takes for a head of hair."""
    book = whole_book(recipes)
    technique = book.techniques.get(technique_id)
    if technique is None:
        raise click.UsageError(
            f'There is no technique "{technique_id}". {did_you_mean(technique_id, book.techniques)}'
        )
    try:
        service = plan(book, technique, length.replace("-", "_"), density, unit)
    except (CannotPlan, CannotWeigh, ValueError) as error:
        raise click.UsageError(str(error)) from error
    if as_json:
        click.echo(json.dumps(service_data(book, service), indent=2, ensure_ascii=False))
    else:
        click.echo(_text(book, service))


def service_data(book: Book, service: Service) -> dict[str, Any]:
    """The plan as plain data; weights as decimal strings, mixed weight unless named lightener."""

    def cost(minor: int | None) -> str | None:
        return decimal_of(minor, book.house.currency)

    return {
        "technique": service.technique.id,
        "length": service.length,
        "density": service.density,
        "factor": plain(service.factor),
        "bowls": [
            {
                "blend": each.blend.id,
                "developer": each.developer.id,
                "where": each.bowl.where,
                "fresh": [_fresh_data(book, fresh) for fresh in each.fresh],
                "cost": cost(service.bowl_costs[index]) if service.bowl_costs else None,
            }
            for index, each in enumerate(service.bowls)
        ],
        "supplies": [
            {"product": line.product, "count": line.count, "cost": cost(line.cost)}
            for line in service.supplies
        ],
        "products_cost": cost(service.products),
        "supplies_cost": cost(service.supply_cost),
        "left_over_cost": cost(service.left_over_cost),
        "cost": cost(service.total),
        "currency": book.house.currency,
    }


def _fresh_data(book: Book, fresh: FreshBowl) -> dict[str, Any]:
    return {
        "sections": fresh.sections,
        "minutes": None if fresh.minutes is None else plain(fresh.minutes),
        "need": f"{plain(fresh.need, 3)} {fresh.unit}",
        "lightener": f"{plain(fresh.lightener, 3)} {fresh.unit}",
        "left_over": f"{plain(fresh.left_over, 3)} {fresh.unit}",
        "weigh_outs": [bowl_data(book, bowl) for bowl in fresh.weigh_outs],
    }


def _text(book: Book, service: Service) -> str:
    data = service_data(book, service)
    lines = [
        f"{service.technique.name}, {service.length.replace('_', '-')} hair, {service.density} density "
        f"(x {data['factor']})"
    ]
    for each in service.bowls:
        lines.append(f"{each.blend.name} with {each.developer.name}: {each.bowl.where}")
        for number, fresh in enumerate(each.fresh, 1):
            minutes = f", {counted(fresh.minutes, 'minute')}" if fresh.minutes is not None else ""
            lines.append(f"  Bowl {number}: {counted(fresh.sections, 'section')}{minutes}")
            for bowl in fresh.weigh_outs:
                places = decimals_of(bowl.step)
                shown = ", ".join(fixed(pour.scale_shows, places) for pour in bowl.pours)
                size = fixed(bowl.batch, places)
                lines.append(f"    batch {size} {bowl.unit}: the scale shows {shown}")
            lines.append(f"    left over {plain(fresh.left_over, 2)} {fresh.unit}")
    lines += [f"{book.products[line.product].name}: {Count(line.count)}" for line in service.supplies]
    if data["cost"] is not None:
        lines.append(
            f"Cost: {data['cost']} {data['currency']} (products {data['products_cost']}, "
            f"{data['left_over_cost']} of that left over; supplies {data['supplies_cost']})"
        )
    lines.append("Follow the makers' instructions first; a fresh bowl when one dries or swells.")
    return "\n".join(lines)
