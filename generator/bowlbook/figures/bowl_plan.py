"""Figure 9, one bowl of a technique: shared over fresh bowls, each covered by sizes and weighed out."""

from collections.abc import Iterable
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.ladder import UNITS
from bowlbook.entries.product import Developer, Product
from bowlbook.entries.technique import Technique, TechniqueBowl
from bowlbook.figures.applying import Applying
from bowlbook.figures.batching import CannotCover, Measured, cover_in_multiples, measured_in_one
from bowlbook.figures.bowl import Bowl, CannotWeigh, Mixer, sizes_in
from bowlbook.figures.exact_sum import exact_sum, known_sum
from bowlbook.figures.proportion import base_share
from bowlbook.figures.unit import in_unit


class CannotPlan(ValueError):
    """A plan cannot be made. ``reason`` says why, in words for the floor; ``mend`` what to write where.

    ``key``: the key of the bowl or the demonstration that asks for what cannot be done.
    """

    def __init__(self, reason: str, mend: str, key: str | None = None) -> None:
        super().__init__(f"{reason} {mend}")
        self.reason = reason
        self.mend = mend
        self.key = key


NOTHING = Fraction(0)


class Portion(NamedTuple):
    """What is mixed at one time, before it is weighed out: the first fields of a `FreshBowl`."""

    sections: int
    minutes: Fraction | None
    unit: str
    step: Fraction
    need: Fraction
    waste: Fraction
    lightener: Fraction
    multiples: tuple[int, ...]


class Weighed(NamedTuple):
    """Batches weighed out, the same for every head that takes them: further fields of a `FreshBowl`."""

    batches: tuple[Fraction, ...]
    weigh_outs: tuple[Bowl, ...]
    cannot: CannotWeigh | None
    weighed: Fraction
    cost: Fraction | None
    price: Fraction | None
    unpriced: tuple[Product, ...]


class FreshBowl(NamedTuple):
    """One bowl mixed at one time: for how many sections, how much is needed, and what is weighed out.

    ``minutes`` is how long it stands open, turns of other bowls included; None where that is not known.
    ``need`` is mixed weight (lightener, developer and additives), ``waste`` the house's allowance within it,
    ``lightener`` the lightener in it, all in ``unit``; ``step`` is the scale's. ``batches`` are of lightener;
    ``multiples`` the same in whole numbers, of one planner's `Measured`.
    ``cannot``: why nothing is weighed out, where a pour would read zero. ``weighed``: mixed weight of all
    weigh-outs, as read on the scale. ``cost``: what is known of their cost, ``price`` the same for a weight
    of 1, both exact; None where nothing is known. ``unpriced``: what is poured without a price.
    ``left_over``: mixed weight as weighed beyond the need; what the waste allowance is for stays in the bowl
    and on the brush, and does not count.
    """

    sections: int
    minutes: Fraction | None
    unit: str
    step: Fraction
    need: Fraction
    waste: Fraction
    lightener: Fraction
    multiples: tuple[int, ...]
    batches: tuple[Fraction, ...]
    weigh_outs: tuple[Bowl, ...]
    cannot: CannotWeigh | None
    weighed: Fraction
    cost: Fraction | None
    price: Fraction | None
    unpriced: tuple[Product, ...]
    left_over: Fraction

    @property
    def complete(self) -> bool:
        """Whether it is weighed out, and no price is missing."""
        return self.cannot is None and not self.unpriced


class BowlPlan(NamedTuple):
    """Everything mixed for one bowl of a technique, in fresh bowls one after another.

    ``factor``: what its mix was multiplied by for this head.
    """

    bowl: TechniqueBowl
    factor: Fraction
    blend: Blend
    developer: Developer
    fresh: tuple[FreshBowl, ...]

    @property
    def unweighed(self) -> tuple[FreshBowl, ...]:
        """The fresh bowls that cannot be weighed out."""
        return tuple(each for each in self.fresh if each.cannot is not None)


def service_unit(book: Book, blends: Iterable[Blend], units: tuple[str, ...] = UNITS) -> str:
    """The first of ``units`` in which each of the blends has sizes, its own or the house's.

    The house must have a scale's step in it too. Raises `CannotPlan` where none will do.
    """
    each_has = [{unit for unit in UNITS if sizes_in(book, blend, unit)} for blend in blends]
    for unit in units:
        if all(unit in has for has in each_has):
            return unit
    raise CannotPlan(
        "The house has sizes and a scale's step together in no unit.",
        "Write both, as batches and scale_step, in house.yml.",
    )


class BowlPlanner:
    """Plans one bowl of a technique, weighed in ``unit``, for any hair amount."""

    def __init__(self, book: Book, technique: Technique, bowl: TechniqueBowl, unit: str) -> None:
        self._book, self._technique, self._bowl, self._unit = book, technique, bowl, unit
        self._blend = book.blends[bowl.blend]
        self._developer = book.developer(bowl.developer or self._blend.developer.product)
        self._ladder = sizes_in(book, self._blend, unit)
        self._step = book.house.scale_step.of(unit) if self._ladder else None
        self._written = None
        if bowl.sections is not None and bowl.mix_per_section is not None:
            self._written = in_unit(bowl.mix_per_section, unit) * bowl.sections
        self._to_lightener = base_share(self._blend)
        # By multiples of the sizes' measure: the plans for all hair amounts take few different ones.
        self._weighed: dict[tuple[int, ...], Weighed] = {}
        self._mixed: dict[int, Bowl] = {}

    # Looked up when a portion is worked out: of a house with mistakes in it they may not be there.
    @cached_property
    def _waste(self) -> Fraction:
        return (self._book.house.waste_allowance or NOTHING) / 100

    @cached_property
    def _sizes(self) -> Measured:
        # Where any size will do, a batch is a multiple of the scale's step.
        any_batch = self._step is not None and self._book.house.any_batch
        return measured_in_one((self._step,) if any_batch else self._ladder)

    def plan(self, factor: Fraction, applied: Applying) -> BowlPlan:
        """The bowl for a head, in as many fresh bowls as `portions` says; arguments as there.

        Raises `CannotPlan`.
        """
        fresh = []
        for portion in self.portions(factor, applied):
            weighed = self._weigh_out(portion.multiples)
            left_over = max(weighed.weighed - portion.need, NOTHING)
            fresh.append(FreshBowl(*portion, *weighed, left_over))
        return BowlPlan(self._bowl, factor, self._blend, self._developer, tuple(fresh))

    def portions(self, factor: Fraction, applied: Applying) -> list[Portion]:
        """What is mixed at one time, and then the next, for a head.

        ``factor``: of the bowl's mix; ``applied``: its sections and minutes on that head. Where applying,
        turns of other bowls included, takes longer than the blend stays fresh, the sections are shared evenly
        over as few fresh bowls as that allows, the first ones taking one more where they do not divide. Each
        fresh bowl is covered by the blend's sizes (`bowlbook.figures.batching.cover`), or by one batch of any
        size, rounded up to a step, where the house allows that. Raises `CannotPlan`.
        """
        blend = self._blend
        sections = applied.sections
        if sections is None or self._written is None:
            raise CannotPlan(
                f"The bowl of {blend.name} in {self._technique.name} has no amounts.",
                "Add sections and mix_per_section.",
            )
        # The factor has the hair amount in it already: more sections share the same total.
        total = self._written * factor
        minutes = applied.minutes
        if blend.fresh_for is None or minutes is None or minutes <= blend.fresh_for:
            return [self._portion(sections, total, minutes)]
        turn = minutes / sections
        if turn > blend.fresh_for:
            raise CannotPlan(
                f"One section takes longer than {blend.name} stays fresh.",
                "Take smaller sections: change sections, mix_per_section and minutes_per_section.",
                "minutes_per_section",
            )
        # Whole sections: one that is begun must be finished from a fresh bowl.
        bowls = -(-sections // (blend.fresh_for // turn))  # rounded up
        each, more = divmod(sections, bowls)
        shared = [each + 1] * more + [each] * (bowls - more)
        found = {
            count: self._portion(count, total * Fraction(count, sections), turn * count)
            for count in dict.fromkeys(shared)
        }
        return [found[count] for count in shared]

    def _portion(self, sections: int, bare: Fraction, minutes: Fraction | None) -> Portion:
        """What some of the sections take; ``bare``: its mixed weight without the waste allowance."""
        waste = bare * self._waste
        need = bare + waste
        lightener = need * self._to_lightener
        if self._step is None:
            other = service_unit(self._book, [self._blend])
            raise CannotPlan(
                f"The house does not mix in {self._unit}.",
                f"It mixes in {other}; for {self._unit} write sizes and a scale's step, as batches and "
                "scale_step, in house.yml.",
            )
        # Up: a bowl that runs out leaves hair half done.
        wanted = self._sizes.multiple_above(lightener)
        multiples = (wanted,) if self._book.house.any_batch else self._cover(wanted)
        return Portion(sections, minutes, self._unit, self._step, need, waste, lightener, multiples)

    def _cover(self, wanted: int) -> tuple[int, ...]:
        try:
            return cover_in_multiples(wanted, self._sizes.multiples)
        except CannotCover as refusal:
            if refusal.weigh_outs is None:
                raise CannotPlan(
                    f"The sizes of {self._blend.name} are too many and too uneven to choose from.",
                    "Write fewer batches, in whole steps of the scale.",
                ) from refusal
            raise CannotPlan(
                f"{self._blend.name} would take {refusal.weigh_outs} weigh-outs in one bowl.",
                "Look at sections and mix_per_section, or give it larger batches.",
            ) from refusal

    def _weigh_out(self, multiples: tuple[int, ...]) -> Weighed:
        if multiples not in self._weighed:
            try:
                found = _weighed([self._mix(each) for each in multiples])
            except CannotWeigh as zero:
                batches = tuple(each * self._sizes.measure for each in multiples)
                found = Weighed(batches, (), zero, NOTHING, None, None, ())
            self._weighed[multiples] = found
        return self._weighed[multiples]

    @cached_property
    def _mixer(self) -> Mixer:
        return Mixer(self._book, self._blend, self._developer)

    def _mix(self, multiple: int) -> Bowl:
        if multiple not in self._mixed:
            assert self._step is not None  # else there were no portions
            batch = multiple * self._sizes.measure
            self._mixed[multiple] = self._mixer.mix(self._unit, batch, self._step)
        return self._mixed[multiple]


def _weighed(bowls: list[Bowl]) -> Weighed:
    batches = tuple([bowl.batch for bowl in bowls])
    poured = [pair for bowl in bowls for pair in zip(bowl.products, bowl.costs, strict=True)]
    unpriced = [product for product, cost in poured if cost is None]
    weighed, cost = exact_sum(bowl.total for bowl in bowls), known_sum(bowl.cost for bowl in bowls)
    price = None if cost is None else cost / weighed
    return Weighed(batches, tuple(bowls), None, weighed, cost, price, tuple(unpriced))
