"""What differs between two books in the services of a technique and in the kit of a class."""

from collections.abc import Iterator, Mapping
from itertools import product as pairs
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.technique import Technique
from bowlbook.figures.changed_fields import same
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.fact import Fact, cost_facts, if_different
from bowlbook.figures.kit import Kit, KitLine, kit, kit_plan, need_text
from bowlbook.figures.service import CannotPlan, Service, ServicePlanner
from bowlbook.reading.amount import plain

CANNOT_PLAN = "cannot be planned"


class _Mixed(NamedTuple):
    """A planned service: the sizes to mix, as compared and as shown, and its cost."""

    sizes: object
    shown: str | None
    cost: str | None


NOT_MEASURED = _Mixed(None, None, None)
"""A head of hair for which the house has no factors."""
UNPLANNED = _Mixed(CANNOT_PLAN, CANNOT_PLAN, None)


def changed_services(old: Book, new: Book, before: Technique, after: Technique) -> Iterator[Fact]:
    """Facts of a service on each head of hair that either house has measured, by length, then density.

    First the sizes to mix, one fact for the densities of a length with the same change; then the costs by
    length. In the house's own unit (`service_unit`).
    """
    one, other = _services(old, before), _services(new, after)
    currencies = old.house.currency, new.house.currency
    for length in LENGTHS:
        changes: dict[tuple[str | None, str | None], list[str]] = {}
        for density in DENSITIES:
            then, now = one[length, density], other[length, density]
            if then.sizes != now.sizes:
                changes.setdefault((then.shown, now.shown), []).append(density)
        for (was, is_), densities in changes.items():
            yield Fact(f"mix for {_hair(length)} ({', '.join(densities)})", was, is_)
    for length in LENGTHS:
        costs = [(each, one[length, each].cost, other[length, each].cost) for each in DENSITIES]
        yield from cost_facts(f"cost of a service, {_hair(length)} ({{}})", costs, currencies)


def _hair(length: str) -> str:
    return f"{length.replace('_', '-')} hair"


def _services(book: Book, technique: Technique) -> dict[tuple[str, str], _Mixed]:
    """The technique planned for each head of hair."""
    try:
        planner = ServicePlanner(book, technique)
    except CannotPlan:
        planner = None
    amounts = book.house.hair_amounts
    found = dict.fromkeys(pairs(LENGTHS, DENSITIES), NOT_MEASURED)
    for hair in amounts.heads if amounts else ():
        found[hair] = _mixed(book, planner, *hair) if planner else UNPLANNED
    return found


def _mixed(book: Book, planner: ServicePlanner, length: str, density: str) -> _Mixed:
    try:
        service = planner.plan(length, density)
    except CannotPlan:
        return UNPLANNED
    sizes = tuple(
        tuple(fresh.batches if fresh.cannot is None else None for fresh in each.fresh)
        for each in service.bowls
    )
    return _Mixed((service.unit, sizes), _shown(service), decimal_of(service.total, book.house.currency))


def _shown(service: Service) -> str:
    """The sizes to mix, as ``1 + 0.5 oz, then 1 oz Soft clay; 1 oz Pearl gloss``."""
    bowls = []
    for each in service.bowls:
        if each.unweighed:
            bowls.append(f"{each.blend.name} cannot be weighed")
            continue
        fresh = [f"{' + '.join(map(plain, bowl.batches))} {service.unit}" for bowl in each.fresh]
        bowls.append(f"{', then '.join(fresh)} {each.blend.name}")
    return "; ".join(bowls)


def changed_kit(
    old: Book, new: Book, before: ClassNotes, after: ClassNotes, was: Mapping[str, str]
) -> Iterator[Fact]:
    """Facts of the kit for the planned number of learners: a line for each product, then its cost.

    ``was``: the former id of each renamed product, by its id. Planned in grams where the house mixes in
    grams, else in ounces. Needs are compared as they are shown: to 0.1 g or
    0.01 oz, by the new house, or in pieces.
    """
    one, other = _kit(old, before), _kit(new, after)
    yield from if_different("kit", *(None if each else CANNOT_PLAN for each in (one, other)))
    then = {line.product.id: line for line in one.lines} if one else {}
    now = {was.get(line.product.id, line.product.id): line for line in other.lines} if other else {}
    for product in dict.fromkeys([*now, *then]):
        earlier, later = then.get(product), now.get(product)
        if not (earlier and later and _same_line(new, earlier, later)):
            name = (later or then[product]).product.name
            yield Fact(f"kit, {name}", _line(new, earlier), _line(new, later))
    costs = _cost(old, one), _cost(new, other)
    yield from cost_facts("cost of the kit", [("", *costs)], (old.house.currency, new.house.currency))


def _cost(book: Book, found: Kit | None) -> str | None:
    return decimal_of(found.cost, book.house.currency) if found else None


def _kit(book: Book, notes: ClassNotes) -> Kit | None:
    try:
        return kit(kit_plan(book, notes), notes.learners)
    except CannotPlan:
        return None


def _same_line(book: Book, one: KitLine, other: KitLine) -> bool:
    net, other_net = (each.product.pack and each.product.pack.net for each in (one, other))
    as_shown = need_text(book.house, one) == need_text(book.house, other)
    return one.containers == other.containers and as_shown and same(net, other_net)


def _line(book: Book, line: KitLine | None) -> str | None:
    """``3 × 450 g, needs 1120.0 g``; the need alone where no whole packs can be counted."""
    if line is None:
        return None
    packs = f"{line.containers} × {line.product.pack.net}, " if line.containers and line.product.pack else ""
    return f"{packs}needs {need_text(book.house, line)}"
