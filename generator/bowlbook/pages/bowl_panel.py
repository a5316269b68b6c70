"""A bowl as the bench reads it: every figure of its table as a finished text."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.measure import Measures
from bowlbook.entries.product import Developer, Product
from bowlbook.figures.bowl import Bowl, Pour
from bowlbook.figures.correction import over_by_one
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.unit import GRAMS_PER, us_fluid_ounces
from bowlbook.figures.weighing import Numbers, weighing_of
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


class OverLine(NamedTuple):
    """A pour one step over: what the scale shows then, the new batch, and the pours still to make.

    ``adds``: the name of each, how much to add, and what the scale shows after it.
    """

    name: str
    scale_shows: str
    batch: str
    adds: tuple[tuple[str, str, str], ...]


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


def panels_of(book: Book, bowls: Sequence[Bowl], formats: LocaleFormat) -> tuple[Panel, ...]:
    """A panel for each bowl of a blend: those of `bowls_of`."""
    seen: Counter[str] = Counter()
    panels = []
    in_ounces = any(bowl.unit == "oz" for bowl in bowls)
    for bowl in bowls:
        seen[bowl.unit] += 1
        panels.append(panel_of(bowl, formats, seen[bowl.unit], book.house.measures, in_ounces=in_ounces))
    return tuple(panels)


def panel_of(
    bowl: Bowl, formats: LocaleFormat, place: int = 1, measures: Measures = (), *, in_ounces: bool = True
) -> Panel:
    """The texts of one bowl: weights with the scale's decimals, mL to 0.1, US fl oz to 0.01.

    ``in_ounces``: whether the recipe is weighed in ounces at all; else nothing is said in fluid ounces.
    """
    weighing = bowl.weighing
    texts = _texts_of(weighing.batch, weighing.parts, weighing.ratios, weighing.step, weighing.tolerance)
    size, unit = texts.size, bowl.unit
    names = [name_poured(each) for each in bowl.products]
    rows = zip(bowl.pours, names, texts.pours, strict=True)
    overs = []
    for name, over in zip(names, texts.overs, strict=True):
        adds = tuple([(names[each], add, shows) for each, add, shows in over.adds])
        overs.append(OverLine(name, over.scale_shows, f"{over.batch} {unit}", adds))
    return Panel(
        # A dot in an id would have to be escaped in every selector.
        anchor=f"{unit}-{size}".replace(".", "-"),
        label=f"{size} {unit}",
        short=f"{texts.short} {unit}",
        place=place,
        unit=unit,
        batch=size,
        step=f"{texts.step} {unit}",
        lines=tuple([_line(*row, formats, measures, in_ounces) for row in rows]),
        total=f"{texts.pours[-1].scale_shows} {unit}",
        peroxide=f"{fixed(bowl.peroxide, 2)} %",
        cost=_cost(bowl, formats),
        priced=formats.priced,
        within_tolerance=texts.within_tolerance,
        worst_error=f"{fixed(texts.off, 1)} %",
        tolerance=texts.tolerance,
        next_weighable=None if texts.nearest is None else f"{texts.nearest} {unit}",
        over_dose=tuple(map(str, bowl.over_dose)),
        overs=tuple(overs),
        spent=_spent(bowl),
        off=texts.off,
    )


class _PourTexts(NamedTuple):
    weigh: str
    scale_shows: str
    exact: str
    error: str


class _OverTexts(NamedTuple):
    """``adds``: the place of each pour still to make, how much to add, and what the scale shows after it."""

    scale_shows: str
    batch: str
    adds: tuple[tuple[int, str, str], ...]


class _Texts(NamedTuple):
    """What a panel says of weights, without units and names: the same for recipes of the same proportions."""

    size: str
    short: str
    step: str
    pours: tuple[_PourTexts, ...]
    within_tolerance: bool
    off: Fraction
    tolerance: str
    nearest: str | None
    overs: tuple[_OverTexts, ...]


@lru_cache(maxsize=8192)  # as for `weighing_of`: pages show the same sizes of many recipes
def _texts_of(
    batch: Fraction, parts: Numbers, ratios: Numbers, step: Fraction, tolerance: Fraction
) -> _Texts:
    weighing, places = weighing_of(batch, parts, ratios, step, tolerance), decimals_of(step)
    nearest = weighing.next_weighable_batch
    pours, overs = [], []
    corrections = over_by_one(batch, parts, ratios, step)
    for reading, shows, over in zip(weighing.readings, weighing.scale_shows, corrections, strict=True):
        weigh, off = fixed(reading.weigh, places), f"{fixed(reading.error * 100, 1)} %"
        pours.append(_PourTexts(weigh, fixed(shows, places), plain(reading.exact, 4), off))
        adds = tuple(
            (place, fixed(each.add, places), fixed(each.scale_shows, places))
            for place, each in enumerate(over.pours)
            if each.must_be != each.in_bowl
        )
        overs.append(_OverTexts(fixed(shows + step, places), fixed(over.batch, places), adds))
    return _Texts(
        batch_text(batch, step),
        plain(batch),
        plain(step),
        tuple(pours),
        weighing.within_tolerance,
        weighing.worst_error * 100,
        f"{plain(tolerance * 100)} %",
        None if nearest is None else fixed(nearest, places),
        tuple(overs),
    )


def batch_text(batch: Fraction, step: Fraction) -> str:
    """A batch with the scale's decimals."""
    # A batch that is no whole number of steps is shown as authored: rounding it here would hide that.
    return fixed(batch, decimals_of(step)) if (batch / step).denominator == 1 else plain(batch)


def _spent(bowl: Bowl) -> tuple[int, int, int]:
    def of(*roles: str) -> int:
        return sum(each.cost or 0 for each in bowl.pours if each.role in roles)

    return of("lightener", "toner"), of("developer"), of("additive")


def _cost(bowl: Bowl, formats: LocaleFormat) -> str | None:
    """The known cost, with the products it leaves out; None where no price is known."""
    # With nothing priced a cost of 0.00 would read as free.
    if len(bowl.unpriced) == len(bowl.pours):
        return None
    return f"{formats.money(bowl.known.total)}{without_phrase(bowl.unpriced)}"


def name_poured(product: Product) -> str:
    """What is poured, a developer with its volume."""
    return developer_name(product) if isinstance(product, Developer) else product.name


def _line(
    each: Pour, name: str, texts: _PourTexts, formats: LocaleFormat, measures: Measures, in_ounces: bool
) -> PourLine:
    volume, millilitres = None, each.millilitres
    if millilitres is not None:
        volume = f"{fixed(millilitres, 1)} mL"
        volume += f" · {fixed(us_fluid_ounces(millilitres), 2)} fl oz (US)" if in_ounces else ""
    own = [measure for measure in measures if each.product.id in measure.of]
    return PourLine(
        each.product.id,
        name,
        each.role,
        *texts,
        volume=volume,
        measure=measure_words(own, each.product, each.reading.weigh * GRAMS_PER[each.unit]) if own else None,
        cost=formats.money(each.cost),
    )
