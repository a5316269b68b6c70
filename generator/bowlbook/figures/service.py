"""Figure 9: how much to mix for a service, at what cost, with what allowed for waste and what left over."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Product
from bowlbook.entries.technique import Technique
from bowlbook.figures.applying import Applying, HairFactors, applying, supply_count
from bowlbook.figures.bowl_plan import BowlPlan as BowlPlan
from bowlbook.figures.bowl_plan import BowlPlanner, service_unit
from bowlbook.figures.bowl_plan import CannotPlan as CannotPlan
from bowlbook.figures.bowl_plan import FreshBowl as FreshBowl
from bowlbook.figures.cost import bill, minor_units, price_per_piece
from bowlbook.figures.exact_sum import in_common, known_sum
from bowlbook.figures.rounding import half_up_of
from bowlbook.figures.time_on_hair import TimeOnHair, time_on_hair


@dataclass(frozen=True, slots=True)
class SupplyLine:
    """A supply that a service uses up, and its cost in minor units; None without a price."""

    product: str
    count: int
    cost: int | None


class Service(NamedTuple):
    """A planned service. Costs in whole minor units of the house's currency.

    ``factors`` of the head's hair amount, ``hands`` how many people apply, ``time`` how long it is on.
    ``bowl_costs`` (of what has a price in each bowl) and the costs of ``supplies`` add up to ``known``; each
    is None where nothing in it has a price. ``unpriced``: the products without one, in the order of use.
    ``waste_cost`` and ``left_over_cost``: what of ``products`` is allowed for waste, and what is left over.
    """

    technique: Technique
    length: str
    density: str
    unit: str
    factors: HairFactors
    hands: int
    time: TimeOnHair
    bowls: tuple[BowlPlan, ...]
    supplies: tuple[SupplyLine, ...]
    bowl_costs: tuple[int | None, ...]
    known: int | None
    unpriced: tuple[Product, ...]
    products: int | None
    waste_cost: int | None
    left_over_cost: int | None

    @property
    def factor(self) -> Fraction:
        """Length x density; a bowl on regrowth alone is multiplied by density only."""
        return self.factors.length * self.factors.density

    @property
    def unweighed(self) -> tuple[BowlPlan, ...]:
        """The bowls that cannot be weighed out, in whole or in part."""
        return tuple(each for each in self.bowls if each.unweighed)

    @property
    def supply_cost(self) -> int | None:
        """What the supplies cost together; None where one has no price."""
        costs = [line.cost for line in self.supplies]
        return None if None in costs else sum(cost or 0 for cost in costs)

    @property
    def total(self) -> int | None:
        """What the service costs; None where a price is missing or a bowl cannot be weighed out."""
        return None if self.products is None or self.supply_cost is None else self.known


class _ByDensity(NamedTuple):
    """What a technique takes on a head of some density, of any length. Costs exact; None without a price."""

    applied: tuple[Applying, ...]
    time: TimeOnHair
    supply_counts: list[int]
    supply_costs: list[Fraction | None]


def plan(
    book: Book,
    technique: Technique,
    length: str,
    density: str,
    unit: str | None = None,
    hands: int | None = None,
) -> Service:
    """`ServicePlanner.plan` for one head of hair."""
    return ServicePlanner(book, technique, unit).plan(length, density, hands)


class ServicePlanner:
    """Plans a technique for any head of hair, weighed in ``unit``, oz or g; in `service_unit` if left out.

    Raises `CannotPlan` where no unit will do.
    """

    def __init__(self, book: Book, technique: Technique, unit: str | None = None) -> None:
        self._book, self._technique = book, technique
        self._unit = unit or service_unit(book, [book.blends[bowl.blend] for bowl in technique.bowls])
        self._bowls = [BowlPlanner(book, technique, bowl, self._unit) for bowl in technique.bowls]
        self._known: dict[tuple[Fraction, int], _ByDensity] = {}

    def plan(self, length: str, density: str, hands: int | None = None) -> Service:
        """The service for a head of hair, applied by ``hands`` people; if left out, as the technique says.

        Mixed weight per bowl = sections x mix per section x the bowl's hair-amount factor x (1 + waste
        allowance), weighed out as `BowlPlanner.plan` says. The exact costs of the bowls and of the supplies
        are added up and rounded once, half up, to the minor unit; the lines (bowls, then supplies) share that
        total by largest remainder. What is allowed for waste and what is left over cost their share of each
        fresh bowl by weight: added up exactly, rounded once, half up. Raises `CannotPlan`.
        """
        book, technique = self._book, self._technique
        factors = hair_factors(book, length, density)
        hands = hands or technique.hands
        on = self._by_density(factors.density, hands)
        asked = zip(self._bowls, technique.bowls, on.applied, strict=True)
        bowls = tuple([planner.plan(factors.of(bowl), applied) for planner, bowl, applied in asked])
        places = minor_units(book.house.currency)
        # Bowls and supplies are billed together, so that their lines add up to one total, rounded once.
        exact = [known_sum(fresh.cost for fresh in each.fresh) for each in bowls]
        found = bill([*exact, *on.supply_costs], places)
        lines = zip(technique.supplies, on.supply_counts, found.lines[len(bowls) :], strict=True)
        supplies = tuple([SupplyLine(each.product, count, cost) for each, count, cost in lines])
        fresh = [each for bowl in bowls for each in bowl.fresh]
        complete = all(each.complete for each in fresh)
        bowl_costs = found.lines[: len(bowls)]
        return Service(
            *(technique, length, density, self._unit, factors, hands),
            time=on.time,
            bowls=bowls,
            supplies=supplies,
            bowl_costs=bowl_costs,
            known=found.total if any(line is not None for line in found.lines) else None,
            unpriced=_unpriced(book, bowls, supplies),
            products=sum(cost or 0 for cost in bowl_costs) if complete else None,
            waste_cost=_share(fresh, [each.waste for each in fresh], places) if complete else None,
            left_over_cost=_share(fresh, [each.left_over for each in fresh], places) if complete else None,
        )

    def _by_density(self, density: Fraction, hands: int) -> _ByDensity:
        """What does not depend on the hair's length: worked out once for a density."""
        book, technique = self._book, self._technique
        found = self._known.get((density, hands))
        if found is None:
            counts = [
                supply_count(technique, each.count, density) if each.by_sections else each.count
                for each in technique.supplies
            ]
            pairs = zip(technique.supplies, counts, strict=True)
            costs = [_supply_cost(book, each.product, count) for each, count in pairs]
            applied, time = applying(technique, density, hands), time_on_hair(book, technique, density, hands)
            found = self._known[density, hands] = _ByDensity(applied, time, counts, costs)
        return found


def hair_factors(book: Book, length: str, density: str) -> HairFactors:
    """The house's factors for a hair amount. Raises `CannotPlan` where one was not measured."""
    amounts = book.house.hair_amounts
    if amounts is None:
        raise CannotPlan("The house has not measured hair amounts.", "Add hair_amounts to house.yml.")
    by_length, by_density = getattr(amounts.length, length, None), getattr(amounts.density, density, None)
    if by_length is None:
        raise _not_measured(f"{length.replace('_', '-')} hair", length, "length")
    if by_density is None:
        raise _not_measured(f"{density} density", density, "density")
    return HairFactors(by_length, by_density)


def _not_measured(what: str, word: str, key: str) -> CannotPlan:
    return CannotPlan(f"The house has not measured {what}.", f"Add {word} to hair_amounts in house.yml.", key)


def _share(fresh: list[FreshBowl], parts: list[Fraction], places: int) -> int:
    """What a part of each fresh bowl's weight costs, in minor units: exact, rounded once, half up."""
    exact = [
        part * each.price for each, part in zip(fresh, parts, strict=True) if part and each.price is not None
    ]
    numerators, common = in_common(exact)
    return half_up_of(sum(numerators) * 10**places, common)


def _supply_cost(book: Book, product_id: str, count: int) -> Fraction | None:
    price = price_per_piece(book.products[product_id].pack)
    return None if price is None else price * count


def _unpriced(book: Book, bowls: Iterable[BowlPlan], supplies: Iterable[SupplyLine]) -> tuple[Product, ...]:
    """Products used without a price that holds for what is used of them, each once."""
    poured = [product for each in bowls for fresh in each.fresh for product in fresh.unpriced]
    used_up = [book.products[line.product] for line in supplies if line.cost is None]
    return tuple({each.id: each for each in (*poured, *used_up)}.values())
