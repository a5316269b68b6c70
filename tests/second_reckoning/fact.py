"""What differs between two books in the figures of a blend, a technique or a class.

Rules: the tables of "What is listed" in pages/manual/commands.md.
"""

from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction
from typing import Any

from tests.second_reckoning.books import DENSITIES, LENGTHS, Book
from tests.second_reckoning.field import value_of
from tests.second_reckoning.reckoning import (
    GRAMS,
    Bowl,
    CannotWeigh,
    bowl_cost,
    decimal,
    millilitres,
    next_weighable,
    peroxide,
    places_of,
    trimmed,
    weigh_out,
    within_tolerance,
)
from tests.second_reckoning.service import NoPlan, Service, kit_answer, needed, plan, service_cost, sizes_of

Fact = tuple[str, str | None, str | None]
"""What differs, before and after."""
CANNOT = "cannot be weighed"


def name_of(book: Book, product: str) -> str:
    """A product's name."""
    return str(book["products"][product]["name"])


def step_of(book: Book, unit: str) -> Fraction:
    """The house's step in a unit."""
    return Fraction(book["house"]["house"]["scale_step"][unit])


def bowls_of(book: Book, blend: str, unit: str) -> dict[Fraction, Bowl | None]:
    """The bowls of a blend's sizes in a unit; none where one cannot be weighed."""
    found: dict[Fraction, Bowl | None] = {}
    if unit not in book["house"]["house"]["scale_step"]:
        return found
    for size in sizes_of(book, blend, unit):
        try:
            found[size] = weigh_out(book, blend, unit, size, step_of(book, unit))
        except CannotWeigh:
            found[size] = None
    return found


def weights(book: Book, bowl: Bowl, only: Iterable[str] | None = None) -> str:
    """Readings with the products' names."""
    places = places_of(bowl.step)
    pours = [pour for pour in bowl.pours if only is None or pour.product in only]
    return ", ".join(f"{decimal(pour.reading, places)} {name_of(book, pour.product)}" for pour in pours)


def running(bowl: Bowl) -> list[Fraction]:
    """What the scale shows after each pour."""
    return [
        sum((pour.reading for pour in bowl.pours[: at + 1]), Fraction(0)) for at in range(len(bowl.pours))
    ]


def shown(bowl: Bowl) -> str:
    """What the scale shows after each pour, written."""
    return ", ".join(decimal(weight, places_of(bowl.step)) for weight in running(bowl))


def rounding(book: Book, bowl: Bowl) -> str:
    """Within the tolerance, or the nearest size."""
    if within_tolerance(book, bowl):
        return "within the tolerance"
    size = trimmed(next_weighable(book, bowl), 6)
    return f"over the tolerance, nearest size this scale can weigh {size} {bowl.unit}"


def volume_facts(old: Book, new: Book, before: Bowl, after: Bowl, size: str) -> Iterator[Fact]:
    """Millilitres of the pours whose weight is the same."""
    was, now = (
        {pour.product: millilitres(book, bowl, pour) for pour in bowl.pours}
        for book, bowl in ((old, before), (new, after))
    )
    readings = {pour.product: pour.reading for pour in before.pours}
    same = [pour.product for pour in after.pours if readings.get(pour.product) == pour.reading]
    differ = [product for product in same if was[product] != now[product]]
    if differ:
        texts = [
            ", ".join(f"{each[product]} mL {name_of(new, product)}" for product in differ if each[product])
            for each in (was, now)
        ]
        yield f"volume for {size}", texts[0] or None, texts[1] or None


def facts_of_size(old: Book, new: Book, before: Bowl, after: Bowl) -> Iterator[Fact]:
    """What differs between two bowls of the same size."""
    size = f"{trimmed(after.batch, 6)} {after.unit}"
    was, now = ({pour.product: pour.reading for pour in bowl.pours} for bowl in (before, after))
    differ = [product for product in now if was.get(product) != now[product]]
    if list(was) != list(now):
        yield f"weigh for {size}", weights(old, before), weights(new, after)
    elif differ:
        yield f"weigh for {size}", weights(old, before, differ), weights(new, after, differ)
    yield from volume_facts(old, new, before, after, size)
    if running(before) != running(after):
        yield f"scale shows for {size}", shown(before), shown(after)
    strengths = [f"{decimal(peroxide(book, bowl), 2)} %" for book, bowl in ((old, before), (new, after))]
    if strengths[0] != strengths[1]:
        yield f"peroxide in {size}", strengths[0], strengths[1]
    remarks = [rounding(old, before), rounding(new, after)]
    if remarks[0] != remarks[1]:
        yield f"rounding at {size}", remarks[0], remarks[1]


def cost_facts(costs: list[Fact], label: Callable[[str], str], currencies: tuple[str, str]) -> Iterator[Fact]:
    """Costs that changed, appeared and went, each on one line."""
    same_currency = currencies[0] == currencies[1]
    changed = [each for each in costs if each[1] and each[2] and not (same_currency and each[1] == each[2])]
    appeared = [each for each in costs if not each[1] and each[2]]
    went = [each for each in costs if each[1] and not each[2]]
    for group in (changed, appeared, went):
        if group:
            before, after = ([str(each[at]) for each in group if each[at]] for at in (1, 2))
            was = f"{', '.join(before)} {currencies[0]}" if before else None
            now = f"{', '.join(after)} {currencies[1]}" if after else None
            yield label(", ".join(each[0] for each in group)), was, now


def currencies_of(old: Book, new: Book) -> tuple[str, str]:
    """The currency before and after."""
    return old["house"]["house"]["currency"], new["house"]["house"]["currency"]


def blend_facts(old: Book, new: Book, ident: str) -> Iterator[Fact]:
    """What differs in the figures of a blend."""
    currencies = currencies_of(old, new)
    of_costs: list[Fact] = []
    for unit in ("oz", "g"):
        was, now = bowls_of(old, ident, unit), bowls_of(new, ident, unit)
        costs = []
        for size in sorted(was.keys() | now.keys()):
            before, after = was.get(size), now.get(size)
            if before and after:
                yield from facts_of_size(old, new, before, after)
            elif before or after or (size in was) != (size in now):
                texts = [
                    weights(book, bowl) if bowl else CANNOT for book, bowl in ((old, before), (new, after))
                ]
                yield (
                    f"batch of {trimmed(size, 6)} {unit}",
                    texts[0] if size in was else None,
                    texts[1] if size in now else None,
                )
            both = [
                bowl_cost(book, bowl)[1] if bowl else None for book, bowl in ((old, before), (new, after))
            ]
            costs.append((trimmed(size, 6), both[0], both[1]))
        of_costs += cost_facts(costs, lambda sizes, unit=unit: f"cost at {sizes} {unit}", currencies)  # type: ignore[misc]
    yield from of_costs


def sizes_to_mix(book: Book, service: Service) -> str:
    """Sizes of every fresh bowl, bowl by bowl."""
    texts = []
    for bowl, every in service.bowls:
        name = book["blends"][bowl["blend"]]["name"]
        if any(fresh.weigh_outs is None for fresh in every):
            texts.append(f"{name} {CANNOT}")
            continue
        each = [" + ".join(trimmed(size, 6) for size in fresh.sizes) + f" {service.unit}" for fresh in every]
        texts.append(f"{', then '.join(each)} {name}")
    return "; ".join(texts)


def planned(book: Book, ident: str, length: str, density: str) -> tuple[str | None, str | None]:
    """What to mix and what it costs; nothing where the hair is not measured."""
    amounts = book["house"]["house"]["hair_amounts"]
    if length not in amounts["length"] or density not in amounts["density"]:
        return None, None
    try:
        service = plan(book, ident, length, density)
    except NoPlan:
        return "cannot be planned", None
    return sizes_to_mix(book, service), service_cost(book, service)


def technique_facts(old: Book, new: Book, ident: str) -> Iterator[Fact]:
    """What differs in the services of a technique."""
    currencies = currencies_of(old, new)
    of_costs: list[Fact] = []
    for length in LENGTHS:
        hair = f"{length.replace('_', '-')} hair"
        lines: dict[tuple[str | None, str | None], list[str]] = {}
        costs = []
        for density in DENSITIES:
            (was, cost_was), (now, cost_now) = (
                planned(old, ident, length, density),
                planned(new, ident, length, density),
            )
            if was != now:
                lines.setdefault((was, now), []).append(density)
            costs.append((density, cost_was, cost_now))
        for (was, now), densities in lines.items():
            yield f"mix for {hair} ({', '.join(densities)})", was, now
        label = lambda densities, hair=hair: f"cost of a service, {hair} ({densities})"  # noqa: E731
        of_costs += cost_facts(costs, label, currencies)
    yield from of_costs


def kit_or_none(book: Book, ident: str) -> dict[str, Any] | None:
    """A kit, or none where it cannot be planned."""
    try:
        return kit_answer(book, ident)
    except NoPlan:
        return None


def kit_line(book: Book, line: dict[str, Any] | None, need: str) -> tuple[Any, str] | None:
    """A line of a kit, to compare by value and written; ``need`` as the newer house reads it."""
    if line is None:
        return None
    if line["containers"] is None:
        return (need,), f"needs {need}"
    net = book["products"][line["product"]]["pack"]["net"]
    return (value_of(net), line["containers"], need), f"{line['containers']} × {net}, needs {need}"


def need_in(house: dict[str, Any], line: dict[str, Any] | None, exact: Fraction | None) -> str:
    """A need in pieces or grams, in ounces to a hundredth where the house has no sizes in grams."""
    if line is None or exact is None:
        return ""
    if line["need"].endswith(" g") and "g" not in house["batches"]:
        return f"{decimal(exact / GRAMS['oz'], 2)} oz"
    return str(line["need"])


def class_facts(old: Book, new: Book, ident: str) -> Iterator[Fact]:
    """What differs in the kit of a class."""
    was, now = kit_or_none(old, ident), kit_or_none(new, ident)
    if (was is None) != (now is None):
        yield "kit", None if was else "cannot be planned", None if now else "cannot be planned"
    of_old, of_new = (
        {line["product"]: line for line in (kit or {"lines": []})["lines"]} for kit in (was, now)
    )
    needs_old, needs_new = (
        needed(book, ident, kit["learners"])[2] if kit else {} for book, kit in ((old, was), (new, now))
    )
    house = new["house"]["house"]
    for product in [*of_new, *(each for each in of_old if each not in of_new)]:
        before, after = (
            kit_line(book, of.get(product), need_in(house, of.get(product), needs.get(product)))
            for book, of, needs in ((old, of_old, needs_old), (new, of_new, needs_new))
        )
        if (before and before[0]) != (after and after[0]):
            name = name_of(new if product in new["products"] else old, product)
            yield f"kit, {name}", before and before[1], after and after[1]
    costs: list[Fact] = [("", was["cost"] if was else None, now["cost"] if now else None)]
    yield from cost_facts(costs, lambda _: "cost of the kit", currencies_of(old, new))
