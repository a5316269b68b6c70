"""Figure 9: how much to mix for a service, in which fresh bowls, at what cost, with what left over."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from generator.book.book import Book
from generator.entries.blend import Blend
from generator.entries.product import Developer
from generator.entries.technique import Technique, TechniqueBowl
from generator.figures.batching import Batches, cover
from generator.figures.bowl import Bowl, ladder_of, mix
from generator.figures.cost import bill, minor_units, price_per_piece
from generator.figures.rounding import half_up
from generator.figures.unit import in_unit

MOST_WEIGH_OUTS = 24
"""More weigh-outs for one bowl than anybody would do: a slip in the amounts."""


class CannotPlan(ValueError):
    """A plan cannot be made; the message says what is missing and where to write it."""


@dataclass(frozen=True, slots=True)
class FreshBowl:
    """One bowl mixed at one time: for how many sections, how much is needed, and what is weighed out.

    ``need`` is mixed weight (lightener, developer and additives), ``lightener`` the lightener in it, both in
    ``unit``. ``batches`` are of lightener. ``left_over`` is mixed weight as weighed beyond the need; what the
    waste allowance is for stays in the bowl and on the brush, and does not count as left over.
    """

    sections: int
    minutes: Fraction | None
    unit: str
    need: Fraction
    lightener: Fraction
    batches: Batches
    weigh_outs: tuple[Bowl, ...]
    left_over: Fraction


@dataclass(frozen=True, slots=True)
class BowlPlan:
    """Everything mixed for one bowl of a technique, in fresh bowls one after another."""

    bowl: TechniqueBowl
    blend: Blend
    developer: Developer
    fresh: tuple[FreshBowl, ...]


@dataclass(frozen=True, slots=True)
class SupplyLine:
    """A supply that a service uses up, and its cost in minor units; None without a price."""

    product: str
    count: int
    cost: int | None


@dataclass(frozen=True, slots=True)
class Service:
    """A planned service. Costs in whole minor units; None where a price is missing.

    ``products`` + ``supply_cost`` = ``total``; ``left_over_cost`` is what of ``products`` is left over.
    """

    technique: Technique
    length: str
    density: str
    factor: Fraction
    bowls: tuple[BowlPlan, ...]
    supplies: tuple[SupplyLine, ...]
    bowl_costs: tuple[int, ...] | None
    products: int | None
    supply_cost: int | None
    left_over_cost: int | None
    total: int | None

    @property
    def applying(self) -> Fraction | None:
        """Minutes that applying takes, all bowls together; None where a bowl does not say."""
        minutes = [fresh.minutes for each in self.bowls for fresh in each.fresh]
        return sum((each for each in minutes if each), Fraction(0)) if None not in minutes else None


def plan(book: Book, technique: Technique, length: str, density: str, unit: str = "oz") -> Service:
    """Plan a service for a head of hair.

    Mixed weight per bowl = sections x mix per section x hair-amount factor x (1 + waste allowance). Where
    applying takes longer than the blend stays fresh, the sections are shared evenly over as many fresh bowls
    as that takes. Each fresh bowl is covered from the ladder (`cover`), or by one batch of any size, rounded
    up to a step, where the house allows that. Raises `CannotPlan`.
    """
    factor = hair_factor(book, length, density)
    bowls = tuple(_bowl(book, technique, each, factor, unit) for each in technique.bowls)
    supplies = tuple(_supply(book, each.product, each.count) for each in technique.supplies)
    weighed = [bowl for each in bowls for fresh in each.fresh for bowl in fresh.weigh_outs]
    costs = None
    products = left = None
    if all(bowl.bill is not None for bowl in weighed):
        costs = tuple(
            sum(bowl.bill.total for fresh in each.fresh for bowl in fresh.weigh_outs if bowl.bill)
            for each in bowls
        )
        products = sum(costs)
        left = half_up(sum((_left_over_cost(fresh) for each in bowls for fresh in each.fresh), Fraction(0)))
    supply_cost = None
    if all(line.cost is not None for line in supplies):
        supply_cost = sum(line.cost or 0 for line in supplies)
    total = products + supply_cost if products is not None and supply_cost is not None else None
    return Service(
        technique, length, density, factor, bowls, supplies, costs, products, supply_cost, left, total
    )


def hair_factor(book: Book, length: str, density: str) -> Fraction:
    """The house's factor for a hair amount: length x density. Raises `CannotPlan` where none was measured."""
    amounts = book.house.hair_amounts
    if amounts is None:
        raise CannotPlan("The house has not measured hair amounts: add hair_amounts to house.yml.")
    by_length, by_density = getattr(amounts.length, length, None), getattr(amounts.density, density, None)
    if by_length is None:
        raise CannotPlan(f"The house has not measured {length} hair: add it to hair_amounts in house.yml.")
    if by_density is None:
        raise CannotPlan(f"The house has not measured {density} hair: add it to hair_amounts in house.yml.")
    factor: Fraction = by_length * by_density
    return factor


def _bowl(book: Book, technique: Technique, bowl: TechniqueBowl, factor: Fraction, unit: str) -> BowlPlan:
    blend = book.blends[bowl.blend]
    developer = book.developer(bowl.developer or blend.developer.product)
    if bowl.sections is None or bowl.mix_per_section is None:
        raise CannotPlan(
            f"The bowl of {blend.name} in {technique.name} has no amounts: add sections and mix_per_section."
        )
    minutes = bowl.minutes_per_section
    bowls = 1
    if minutes is not None and blend.fresh_for is not None:
        if minutes > blend.fresh_for:
            raise CannotPlan(f"One section takes longer than {blend.name} stays fresh.")
        bowls = ceil(bowl.sections / (blend.fresh_for // minutes))
    each, more = divmod(bowl.sections, bowls)
    shared = [each + 1] * more + [each] * (bowls - more)
    per_section = in_unit(bowl.mix_per_section, unit) * factor
    fresh = tuple(
        _fresh(book, blend, developer, unit, count, per_section * count, minutes and minutes * count)
        for count in shared
    )
    return BowlPlan(bowl, blend, developer, fresh)


def _fresh(
    book: Book,
    blend: Blend,
    developer: Developer,
    unit: str,
    sections: int,
    bare: Fraction,
    minutes: Fraction | None,
) -> FreshBowl:
    waste = (book.house.waste_allowance or Fraction(0)) / 100
    need = bare * (1 + waste)
    whole = 1 + blend.developer.ratio.value + sum((each.ratio.value for each in blend.additives), Fraction(0))
    lightener = need / whole
    sizes = [(batch, step) for own, batch, step in ladder_of(book, blend) if own == unit]
    step = book.house.scale_step.of(unit)
    if step is None or not sizes:
        raise CannotPlan(f"The house has no batch sizes and scale step in {unit}.")
    if book.house.any_batch:
        exact = -(-lightener // step) * step
        batches = Batches((exact,), exact - lightener)
    else:
        batches = cover(lightener, [batch for batch, _ in sizes])
    if len(batches.batches) > MOST_WEIGH_OUTS:
        raise CannotPlan(
            f"{blend.name} would take {len(batches.batches)} weigh-outs in one bowl: look at sections and "
            "mix_per_section, or give it larger batches."
        )
    weigh_outs = tuple(mix(book, blend, unit, batch, step, developer) for batch in batches.batches)
    weighed = sum((bowl.total for bowl in weigh_outs), Fraction(0))
    return FreshBowl(
        sections, minutes, unit, need, lightener, batches, weigh_outs, max(weighed - need, Fraction(0))
    )


def _left_over_cost(fresh: FreshBowl) -> Fraction:
    """What is left over of a fresh bowl, in minor units, exact: its share of the bowl's cost."""
    weighed = sum((bowl.total for bowl in fresh.weigh_outs), Fraction(0))
    cost = sum(bowl.bill.total for bowl in fresh.weigh_outs if bowl.bill)
    return cost * fresh.left_over / weighed


def _supply(book: Book, product_id: str, count: int) -> SupplyLine:
    price = price_per_piece(book.products[product_id].pack)
    if price is None:
        return SupplyLine(product_id, count, None)
    return SupplyLine(product_id, count, bill([price * count], minor_units(book.house.currency)).total)
