"""A bowl as the bench reads it: every figure of its table as a finished text."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.measure import Measure
from bowlbook.entries.product import Developer, Product
from bowlbook.figures.bowl import Bowl, Pour, ladder_of, mix
from bowlbook.figures.correction import Correction, over_by_one
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.unit import GRAMS_PER, us_fluid_ounces
from bowlbook.reading.amount import plain
from bowlbook.wording.amount import measure_words
from bowlbook.wording.cost import without_phrase
from bowlbook.wording.developer import developer_name
from bowlbook.wording.locale_format import LocaleFormat


class PourLine(NamedTuple):
    """One row of the bowl table. ``volume``: the developer by mL and fl oz, where its density is known.

    ``measure``: the same in the house's own measure, as ``about 1.75 scoops``.
    """

    id: str
    name: str
    role: str
    weigh: str
    scale_shows: str
    exact: str
    error: str
    volume: str | None
    measure: str | None
    cost: str | None


class AddLine(NamedTuple):
    """One pour still to make in a corrected bowl: how much to add, and what the scale shows after it."""

    name: str
    add: str
    scale_shows: str


class OverLine(NamedTuple):
    """A pour one step over: what the scale shows then, the new batch, and the pours still to make."""

    name: str
    scale_shows: str
    batch: str
    adds: tuple[AddLine, ...]


class Panel(NamedTuple):
    """One size of a bowl. ``over_dose``: a sentence for each additive over its maker's dose.

    ``label`` has the scale's decimals, ``short`` none that it can do without. ``place``: among the sizes
    of its unit, from 1. ``spent``: what lightener or toner, developer and additives cost, as far as it is
    known, in minor units. ``off``: the worst error in per cent, exact.
    """

    anchor: str
    label: str
    short: str
    place: int
    unit: str
    batch: str
    step: str
    lines: tuple[PourLine, ...]
    total: str
    peroxide: str
    cost: str | None
    priced: bool
    within_tolerance: bool
    worst_error: str
    tolerance: str
    next_weighable: str | None
    over_dose: tuple[str, ...]
    overs: tuple[OverLine, ...]
    spent: tuple[int, int, int]
    off: Fraction


def panels_of(book: Book, blend: Blend, formats: LocaleFormat) -> tuple[Panel, ...]:
    """A panel for each size of the blend's ladder, ounces first."""
    seen: Counter[str] = Counter()
    panels = []
    sizes = ladder_of(book, blend)
    in_ounces = any(unit == "oz" for unit, _, _ in sizes)
    for unit, batch, step in sizes:
        seen[unit] += 1
        bowl = mix(book, blend, unit, batch, step)
        panels.append(panel_of(bowl, formats, seen[unit], book.house.measures, in_ounces=in_ounces))
    return tuple(panels)


def panel_of(
    bowl: Bowl,
    formats: LocaleFormat,
    place: int = 1,
    measures: Sequence[Measure] = (),
    *,
    in_ounces: bool = True,
) -> Panel:
    """The texts of one bowl: weights with the scale's decimals, mL to 0.1, US fl oz to 0.01.

    ``in_ounces``: whether the recipe is weighed in ounces at all; else nothing is said in fluid ounces.
    """
    places = decimals_of(bowl.step)
    size = batch_text(bowl)
    nearest = bowl.next_weighable_batch
    overs = over_by_one(bowl.batch, bowl.weighing.parts, bowl.weighing.ratios, bowl.step)
    return Panel(
        # A dot in an id would have to be escaped in every selector.
        anchor=f"{bowl.unit}-{size}".replace(".", "-"),
        label=f"{size} {bowl.unit}",
        short=f"{plain(bowl.batch)} {bowl.unit}",
        place=place,
        unit=bowl.unit,
        batch=size,
        step=f"{plain(bowl.step)} {bowl.unit}",
        lines=tuple([_line(each, bowl.unit, places, formats, measures, in_ounces) for each in bowl.pours]),
        total=f"{fixed(bowl.total, places)} {bowl.unit}",
        peroxide=f"{fixed(bowl.peroxide, 2)} %",
        cost=_cost(bowl, formats),
        priced=formats.priced,
        within_tolerance=bowl.within_tolerance,
        worst_error=f"{fixed(bowl.worst_error * 100, 1)} %",
        tolerance=f"{plain(bowl.tolerance * 100)} %",
        next_weighable=None if nearest is None else f"{fixed(nearest, places)} {bowl.unit}",
        over_dose=tuple(map(str, bowl.over_dose)),
        overs=tuple(_over(bowl, place, correction, places) for place, correction in enumerate(overs)),
        spent=_spent(bowl),
        off=bowl.worst_error * 100,
    )


def batch_text(bowl: Bowl) -> str:
    """A bowl's batch with the scale's decimals."""
    # A batch that is no whole number of steps is shown as authored: rounding it here would hide that.
    whole_steps = (bowl.batch / bowl.step).denominator == 1
    return fixed(bowl.batch, decimals_of(bowl.step)) if whole_steps else plain(bowl.batch)


def _spent(bowl: Bowl) -> tuple[int, int, int]:
    base = sum(each.cost or 0 for each in bowl.pours if each.role in ("lightener", "toner"))
    developer, additives = (
        sum(each.cost or 0 for each in bowl.pours if each.role == role) for role in ("developer", "additive")
    )
    return base, developer, additives


def _cost(bowl: Bowl, formats: LocaleFormat) -> str | None:
    """The known cost, with the products it leaves out; None where no price is known."""
    # With nothing priced a cost of 0.00 would read as free.
    if len(bowl.unpriced) == len(bowl.pours):
        return None
    return f"{formats.money(bowl.known.total)}{without_phrase(bowl.unpriced)}"


def _over(bowl: Bowl, place: int, correction: Correction, places: int) -> OverLine:
    """What to add after the pour at ``place`` went one step over."""
    return OverLine(
        name_poured(bowl.products[place]),
        fixed(bowl.weighing.scale_shows[place] + bowl.step, places),
        f"{fixed(correction.batch, places)} {bowl.unit}",
        tuple(
            AddLine(name_poured(product), fixed(now.add, places), fixed(now.scale_shows, places))
            for product, now in zip(bowl.products, correction.pours, strict=True)
            if now.must_be != now.in_bowl
        ),
    )


def name_poured(product: Product) -> str:
    """What is poured, a developer with its volume."""
    return developer_name(product) if isinstance(product, Developer) else product.name


def weights_of(bowl: Bowl) -> list[tuple[str, str]]:
    """Of each pour what to weigh, and what the scale shows then."""
    places, weighing = decimals_of(bowl.step), bowl.weighing
    pairs = zip(weighing.readings, weighing.scale_shows, strict=True)
    return [(fixed(reading.weigh, places), fixed(shows, places)) for reading, shows in pairs]


def _line(
    each: Pour, unit: str, places: int, formats: LocaleFormat, measures: Sequence[Measure], in_ounces: bool
) -> PourLine:
    volume, millilitres = None, each.millilitres
    if millilitres is not None:
        volume = f"{fixed(millilitres, 1)} mL"
        volume += f" · {fixed(us_fluid_ounces(millilitres), 2)} fl oz (US)" if in_ounces else ""
    return PourLine(
        id=each.product.id,
        name=name_poured(each.product),
        role=each.role,
        weigh=fixed(each.reading.weigh, places),
        scale_shows=fixed(each.scale_shows, places),
        exact=plain(each.reading.exact, 4),
        error=f"{fixed(each.reading.error * 100, 1)} %",
        volume=volume,
        measure=measure_words(measures, each.product, each.reading.weigh * GRAMS_PER[unit]),
        cost=formats.money(each.cost),
    )
