"""``bowlbook plan``: a service's bowls in order, weigh-outs, supplies, cost, and what is left over."""

from fractions import Fraction
from pathlib import Path

import click

from bowlbook.book.book import Book
from bowlbook.commands.bowl_report import bowl_data
from bowlbook.commands.printer import echo, print_json, recipes_option, whole_book, wrong_use
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.service import BowlPlan, CannotPlan, FreshBowl, Service, plan
from bowlbook.figures.time_on_hair import TimeOnHair
from bowlbook.reading.amount import Count, counted, plain
from bowlbook.wording.cost import without_phrase
from bowlbook.wording.missing import no_such, retired_sentences
from bowlbook.wording.service import cannot_remark, rounding_remark
from bowlbook.wording.time_on_hair import time_facts, time_warning


@click.command()
@click.argument("technique_id", metavar="TECHNIQUE")
@click.option("--length", type=click.Choice([each.replace("_", "-") for each in LENGTHS]), default="medium")
@click.option("--density", type=click.Choice(DENSITIES), default="medium")
@click.option("--unit", type=click.Choice(["oz", "g"]), help="What to weigh in; else as the house does.")
@click.option("--hands", type=click.IntRange(1, 2), help="How many people apply; else as the technique says.")
@recipes_option
@click.option("--json", "as_json", is_flag=True, help="Print the plan as JSON.")
def command(
    technique_id: str,
    length: str,
    density: str,
    unit: str | None,
    hands: int | None,
    recipes: Path,
    as_json: bool,
) -> None:
    """Work out what a service takes for a head of hair."""
    book = whole_book(recipes)
    technique = book.techniques.get(technique_id)
    if technique is None:
        raise click.UsageError(no_such("technique", technique_id, book.techniques))
    for sentence in retired_sentences(book, technique):
        echo(sentence, err=True)
    with wrong_use(CannotPlan):
        service = plan(book, technique, length.replace("-", "_"), density, unit, hands)
    if as_json:
        print_json(service_data(book, service))
    else:
        click.echo(_text(book, service))


def service_data(book: Book, service: Service) -> dict[str, object]:
    """The plan as plain data; weights as decimal strings, mixed weight unless named lightener."""

    def cost(minor: int | None) -> str | None:
        return decimal_of(minor, book.house.currency)

    return {
        "technique": service.technique.id,
        "length": service.length,
        "density": service.density,
        "unit": service.unit,
        "factor": plain(service.factor),
        "time": _time_data(service.time),
        "bowls": [
            {
                "blend": each.blend.id,
                "developer": each.developer.id,
                "where": each.bowl.where,
                "factor": plain(each.factor),
                "fresh": [_fresh_data(book, each, fresh) for fresh in each.fresh],
                "cost": cost(service.bowl_costs[index]),
            }
            for index, each in enumerate(service.bowls)
        ],
        "supplies": [
            {"product": line.product, "count": line.count, "cost": cost(line.cost)}
            for line in service.supplies
        ],
        "products_cost": cost(service.products),
        "supplies_cost": cost(service.supply_cost),
        "waste_cost": cost(service.waste_cost),
        "left_over_cost": cost(service.left_over_cost),
        "cost": cost(service.total),
        "known_cost": cost(service.known),
        "without_price": [each.id for each in service.unpriced],
        "currency": book.house.currency,
    }


def _time_data(time: TimeOnHair) -> dict[str, object]:
    def minutes(number: Fraction | None) -> str | None:
        return None if number is None else plain(number)

    limit = time.limit
    return {
        "applying": minutes(time.applying),
        "processing": minutes(time.processing),
        "counts_from": time.counts_from,
        "first_in_to_last_rinsed": minutes(time.span),
        "longest_in_place": minutes(time.longest),
        "limit": minutes(limit.minutes) if limit else None,
        "limit_by": None if limit is None else limit.product.id if limit.product else "house",
        "over": time.over,
    }


def _fresh_data(book: Book, planned: BowlPlan, fresh: FreshBowl) -> dict[str, object]:
    return {
        "sections": fresh.sections,
        "minutes": None if fresh.minutes is None else plain(fresh.minutes),
        "need": f"{plain(fresh.need, 3)} {fresh.unit}",
        "waste": f"{plain(fresh.waste, 3)} {fresh.unit}",
        "lightener": f"{plain(fresh.lightener, 3)} {fresh.unit}",
        "left_over": f"{plain(fresh.left_over, 3)} {fresh.unit}",
        "cannot_weigh": cannot_remark(planned.blend, fresh),
        "weigh_outs": [bowl_data(book, bowl) for bowl in fresh.weigh_outs],
    }


def _text(book: Book, service: Service) -> str:
    lines = [f"{service.technique.name}, {service.length.replace('_', '-')} hair, {service.density} density"]
    warning = time_warning(book, service.technique, service.factors.density, service.time)
    lines += [warning] if warning else []
    for each in service.bowls:
        times = f" (x {plain(each.factor)})" if each.factor != 1 else ""
        lines.append(f"{each.blend.name}{times} with {each.developer.name}: {each.bowl.where}")
        for number, fresh in enumerate(each.fresh, 1):
            lines += [f"  Bowl {number}: {_sections(fresh)}", *_weigh_outs(each, fresh)]
    lines += [f"{book.products[line.product].name}: {Count(line.count)}" for line in service.supplies]
    lines += [f"{name}: {said}" for name, said in time_facts(service.technique, service.time, service.hands)]
    lines += _costs(book, service)
    lines.append("Follow the makers' instructions first; a fresh bowl when one dries or swells.")
    return "\n".join(lines)


def _sections(fresh: FreshBowl) -> str:
    sections = counted(fresh.sections, "section")
    return sections if fresh.minutes is None else f"{sections}, {counted(fresh.minutes, 'minute')}"


def _weigh_outs(planned: BowlPlan, fresh: FreshBowl) -> list[str]:
    """A line for each weigh-out with its remark, then what is allowed for waste and what is left over."""
    places = decimals_of(fresh.step)
    lines: list[str] = []
    for bowl in fresh.weigh_outs:
        again = "tare again, then " if lines else ""
        shown = ", ".join(fixed(pour.scale_shows, places) for pour in bowl.pours)
        lines.append(f"    {again}batch {fixed(bowl.batch, places)} {bowl.unit}: the scale shows {shown}")
        remark = rounding_remark(bowl)
        lines += [f"      {remark}"] if remark else []
    cannot = cannot_remark(planned.blend, fresh)
    if cannot is not None:
        return [f"    {cannot}"]
    left_over = f"{plain(fresh.left_over, 2)} {fresh.unit}"
    return [*lines, f"    {plain(fresh.waste, 2)} {fresh.unit} allowed for waste, {left_over} left over"]


def _costs(book: Book, service: Service) -> list[str]:
    def cost(minor: int | None) -> str:
        return f"{decimal_of(minor, book.house.currency)} {book.house.currency}"

    if service.known is None:
        return []
    without = without_phrase(service.unpriced, [each.blend for each in service.unweighed])
    known = f"Cost: {cost(service.known)}{without}"
    if service.total is None:
        return [f"{known}."]
    return [
        f"{known} (products {cost(service.products)}, of them {cost(service.waste_cost)} for waste and "
        f"{cost(service.left_over_cost)} left over; supplies {cost(service.supply_cost)})."
    ]
