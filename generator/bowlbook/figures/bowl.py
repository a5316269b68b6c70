"""A blend's bowl in one size: every pour with its readings, how far off they are, its peroxide and cost."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import repeat
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.entries.blend import Blend
from bowlbook.entries.house import House
from bowlbook.entries.ladder import UNITS
from bowlbook.entries.product import Additive, Developer, Lightener, Product, Supply, Toner
from bowlbook.figures.cost import Bill, bill, minor_units, price_per_gram
from bowlbook.figures.exact_sum import known_sum
from bowlbook.figures.over_dose import OverDose, over_dose
from bowlbook.figures.peroxide import peroxide_in_bowl
from bowlbook.figures.proportion import proportions
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.unit import GRAMS_PER, in_unit, us_fluid_ounces, volume_of
from bowlbook.figures.weigh_out import Reading
from bowlbook.figures.weighing import Weighing, weighable, weighing_of

LARGEST_BATCH = Fraction(500)
"""Grams of lightener above which a batch is questioned, where the house does not say. Common practice, no
published source: with developer at 1:2 it fills a large mixing bowl."""

WITH_DENSITY = (Lightener, Developer, Toner, Additive)


class Pour(NamedTuple):
    """One thing poured. Weights in ``unit``, the bowl's.

    ``cost`` in whole minor units of the house's currency, None where the product has no price by weight.
    """

    product: Product
    role: str
    unit: str
    reading: Reading
    scale_shows: Fraction
    cost: int | None

    @property
    def millilitres(self) -> Fraction | None:
        """The volume of the reading, exact; None where the product has no density."""
        density = density_of(self.product)
        return volume_of(self.reading.weigh * GRAMS_PER[self.unit], density) if density else None

    @property
    def us_fluid_ounces(self) -> Fraction | None:
        """The same volume in US fluid ounces, exact."""
        volume = self.millilitres
        return None if volume is None else us_fluid_ounces(volume)


@dataclass(frozen=True)  # no slots, which cached properties need: most callers never ask for costs
class Poured:
    """What is poured into a bowl of any size, in pouring order."""

    products: tuple[Product, ...]
    unit: str

    @cached_property
    def prices(self) -> tuple[Fraction | None, ...]:
        """What one ``unit`` of each costs, exact; None where it has no price by weight."""
        return tuple([_price(each, self.unit) for each in self.products])


@dataclass(frozen=True)  # no slots, as above
class Bowl:
    """A bowl as it is weighed, all weights in ``unit``.

    ``decimals``: of the house's currency. ``over_dose``: additives over their
    maker's dose. ``over_bowl``: whether it is more than fits a bowl.
    """

    blend: Blend
    unit: str
    developer: Developer
    poured: Poured
    weighing: Weighing
    decimals: int
    over_dose: tuple[OverDose, ...]
    over_bowl: bool

    @property
    def products(self) -> tuple[Product, ...]:
        """Everything poured, in pouring order."""
        return self.poured.products

    @cached_property
    def costs(self) -> tuple[Fraction | None, ...]:
        """What each pour costs, exact, in the house's currency; None where its price is missing."""
        pairs = zip(self.poured.prices, self.weighing.readings, strict=True)
        return tuple([None if price is None else price * reading.weigh for price, reading in pairs])

    @cached_property
    def cost(self) -> Fraction | None:
        """The exact sum of the costs that are known; None where none is."""
        return known_sum(self.costs)

    @cached_property
    def known(self) -> Bill:
        """The bill of the costs that are known."""
        return bill(self.costs, self.decimals)

    @cached_property
    def pours(self) -> tuple[Pour, ...]:
        """Everything poured, in pouring order."""
        bases = len(self.blend.shares)
        roles = ["toner" if self.blend.tones else "lightener"] * bases
        roles += ["developer", *["additive"] * (len(self.products) - bases - 1)]
        weighing = self.weighing
        columns = (self.products, roles, repeat(self.unit), weighing.readings, weighing.scale_shows)
        return tuple(map(Pour, *columns, self.known.lines))

    @cached_property
    def shown(self) -> tuple[tuple[str, str], ...]:
        """Of each pour what to weigh, and what the scale shows then, both with the scale's decimals."""
        places, weighing = decimals_of(self.step), self.weighing
        pairs = zip(weighing.readings, weighing.scale_shows, strict=True)
        return tuple([(fixed(reading.weigh, places), fixed(shows, places)) for reading, shows in pairs])

    @property
    def total(self) -> Fraction:
        """Everything in the bowl together, as weighed."""
        return self.weighing.scale_shows[-1]

    @property
    def developed(self) -> Fraction:
        """The developer, as weighed."""
        return self.weighing.readings[len(self.blend.shares)].weigh

    @property
    def peroxide(self) -> Fraction:
        """Per cent of hydrogen peroxide in the bowl."""
        return peroxide_in_bowl(self.developer.peroxide_percent, self.developed, self.total)

    @property
    def batch(self) -> Fraction:
        """All the lightener, or toner, together."""
        return self.weighing.batch

    @property
    def step(self) -> Fraction:
        """The step of the scale."""
        return self.weighing.step

    @property
    def tolerance(self) -> Fraction:
        """The house's tolerance for rounding, as a fraction of 1."""
        return self.weighing.tolerance

    @property
    def unpriced(self) -> tuple[Product, ...]:
        """The products without a price."""
        return tuple(each.product for each in self.pours if each.cost is None)

    @property
    def bill(self) -> Bill | None:
        """What the bowl costs; None where the price of anything in it is missing."""
        return self.known if self.known.complete else None

    @property
    def worst_error(self) -> Fraction:
        """The largest relative error that rounding causes, as a fraction of 1."""
        return self.weighing.worst_error

    @property
    def next_weighable_batch(self) -> Fraction | None:
        """The nearest size this scale can weigh: this batch or a larger, in whole steps; None if none."""
        return self.weighing.next_weighable_batch

    @property
    def within_tolerance(self) -> bool:
        """Whether rounding to the scale stays within the house's tolerance."""
        return self.weighing.within_tolerance


class CannotWeigh(ValueError):
    """A pour would read zero on this scale. ``product`` says which.

    ``next_weighable_batch``: the nearest larger size that this scale can weigh, None where there is none; in
    ``unit``, as ``step``, the scale's.
    """

    def __init__(self, product: Product, nearest: Fraction | None, unit: str, step: Fraction) -> None:
        super().__init__(f"{product.name} would read zero on this scale")
        self.product = product
        self.next_weighable_batch = nearest
        self.unit, self.step = unit, step


def density_of(product: Product) -> Fraction | None:
    """A product's density in g/mL, where it has one."""
    return product.density if isinstance(product, WITH_DENSITY) else None


def developers_of(book: Book, blend: Blend) -> tuple[Developer, ...]:
    """The developers a blend may be mixed with, its own first; no retired one takes its place."""
    others = (book.developer(entry_id) for entry_id in blend.developer.also)
    return (book.developer(blend.developer.product), *(each for each in others if not is_retired(each)))


def mix(
    book: Book, blend: Blend, unit: str, batch: Fraction, step: Fraction, developer: Developer | None = None
) -> Bowl:
    """`Mixer.mix` for one size."""
    return Mixer(book, blend, developer).mix(unit, batch, step)


class Mixer:
    """Mixes a blend in any size. ``developer``: one of `developers_of`, its own if left out."""

    def __init__(self, book: Book, blend: Blend, developer: Developer | None = None) -> None:
        self._book, self._blend = book, blend
        self._developer = developer or book.developer(blend.developer.product)
        bases = [book.base(each.product) for each in blend.shares]
        additives = [book.additive(each.product) for each in blend.additives]
        self._products = (*bases, self._developer, *additives)
        self._poured = {unit: Poured(self._products, unit) for unit in UNITS}
        self._proportions = proportions(blend)
        self._tolerance = book.house.rounding_tolerance / 100

    def mix(self, unit: str, batch: Fraction, step: Fraction) -> Bowl:
        """The bowl for a batch, as figures 1 to 4, 6 and 8 of the design work it out.

        ``batch`` (all the lightener, or toner, together) and ``step`` in ``unit``, oz or g. In pouring order:
        lighteners (or toners), developer, additives. Raises `CannotWeigh` where a pour would read zero.
        """
        book, blend = self._book, self._blend
        # Ratios are by weight, so that another developer changes no reading.
        weighing = weighing_of(batch, *self._proportions, step, self._tolerance)
        if weighing.reads_zero is not None:
            product = self._products[weighing.reads_zero]
            raise CannotWeigh(product, weighing.next_weighable_batch, unit, step)
        decimals, doses = minor_units(book.house.currency), over_dose(book, blend, unit, weighing)
        over, poured = over_bowl(book.house, unit, batch), self._poured[unit]
        return Bowl(blend, unit, self._developer, poured, weighing, decimals, doses, over)


def largest_batch(house: House) -> Fraction:
    """Grams of lightener above which a batch is questioned: what the house says, else `LARGEST_BATCH`."""
    return LARGEST_BATCH if house.largest_batch is None else in_unit(house.largest_batch, "g")


def over_bowl(house: House, unit: str, batch: Fraction) -> bool:
    """Whether a batch, in ``unit``, is more lightener than fits a bowl."""
    return batch * GRAMS_PER[unit] > largest_batch(house)


def weighing_in(book: Book, blend: Blend, batch: Fraction, step: Fraction) -> Weighing:
    """The weights of a batch with the blend's own developer: figures 1 to 5 of the design, without products.

    ``batch`` and ``step`` in one unit.
    """
    return weighing_of(batch, *proportions(blend), step, book.house.rounding_tolerance / 100)


def _price(product: Product, unit: str) -> Fraction | None:
    if isinstance(product, Supply):
        return None
    price = price_per_gram(product.pack, density_of(product))
    return None if price is None else price * GRAMS_PER[unit]


def ladder_of(book: Book, blend: Blend) -> list[tuple[str, Fraction, Fraction]]:
    """The sizes a blend is mixed in, as (unit, batch, step): its own ladder, else the house's."""
    steps = [(unit, step) for unit in UNITS if (step := book.house.scale_step.of(unit)) is not None]
    return [(unit, batch, step) for unit, step in steps for batch in sizes_in(book, blend, unit)]


def sizes_in(book: Book, blend: Blend, unit: str) -> tuple[Fraction, ...]:
    """The batches of `ladder_of` in one unit; none in a unit without a scale."""
    if book.house.scale_step.of(unit) is None:
        return ()
    own = blend.batches.of(unit) if blend.batches else ()
    return own or book.house.batches.of(unit)


def bowls_of(book: Book, blend: Blend, developer: Developer | None = None) -> list[Bowl]:
    """The blend's bowl in each size of `ladder_of`. Raises `CannotWeigh`."""
    mixer = Mixer(book, blend, developer)
    return [mixer.mix(*size) for size in ladder_of(book, blend)]


def unweighable_sizes(book: Book, blend: Blend) -> tuple[tuple[str, int, Weighing], ...]:
    """The sizes of `ladder_of` that the scale cannot weigh within the house's tolerance, or at all.

    As (unit, place in that unit's ladder, weighing); no bowl is mixed for it.
    """
    ladder = ladder_of(book, blend)
    parts, ratios = proportions(blend)
    return _unweighable(
        units=tuple([unit for unit, _, _ in ladder]),
        batches=_exact([batch for _, batch, _ in ladder]),
        steps=_exact([step for _, _, step in ladder]),
        parts=_exact(parts),
        ratios=_exact(ratios),
        percent=book.house.rounding_tolerance.as_integer_ratio(),
    )


Ratio = tuple[int, int]
"""Numerator and denominator: hashed in a tenth of the time that a fraction takes."""


def _exact(numbers: Sequence[Fraction]) -> tuple[Ratio, ...]:
    return tuple([each.as_integer_ratio() for each in numbers])


def _fractions(exact: tuple[Ratio, ...]) -> tuple[Fraction, ...]:
    return tuple([Fraction(*each) for each in exact])


@lru_cache(maxsize=4096)  # several checks ask, and many recipes share their proportions and ladder
def _unweighable(
    units: tuple[str, ...],
    batches: tuple[Ratio, ...],
    steps: tuple[Ratio, ...],
    parts: tuple[Ratio, ...],
    ratios: tuple[Ratio, ...],
    percent: Ratio,
) -> tuple[tuple[str, int, Weighing], ...]:
    found = []
    places = Counter[str]()
    shares, to_parts, most = _fractions(parts), _fractions(ratios), Fraction(*percent) / 100
    for unit, batch, step in zip(units, _fractions(batches), _fractions(steps), strict=True):
        if not weighable(batch / step, shares, to_parts, most):
            found.append((unit, places[unit], weighing_of(batch, shares, to_parts, step, most)))
        places[unit] += 1
    return tuple(found)
