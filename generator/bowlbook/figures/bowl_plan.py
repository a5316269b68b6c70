"""Figure 9, one bowl of a technique: shared over fresh bowls, each covered by sizes and weighed out."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import ceil
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.ladder import UNITS
from bowlbook.entries.product import Developer
from bowlbook.entries.technique import Technique, TechniqueBowl
from bowlbook.figures.applying import Applying, HairFactors
from bowlbook.figures.batching import CannotCover, cover
from bowlbook.figures.bowl import Bowl, CannotWeigh, ladder_of, mix
from bowlbook.figures.exact_sum import exact_sum, known_sum
from bowlbook.figures.proportion import proportions
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


@dataclass(frozen=True)  # no slots: a service asks for its weight and cost several times
class FreshBowl:
    """One bowl mixed at one time: for how many sections, how much is needed, and what is weighed out.

    ``minutes`` is how long it stands open, turns of other bowls included; None where that is not known.
    ``need`` is mixed weight (lightener, developer and additives), ``waste`` the house's allowance within it,
    ``lightener`` the lightener in it, all in ``unit``; ``step`` is the scale's. ``batches`` are of lightener.
    ``cannot``: why nothing is weighed out, where a pour would read zero.
    """

    sections: int
    minutes: Fraction | None
    unit: str
    step: Fraction
    need: Fraction
    waste: Fraction
    lightener: Fraction
    batches: tuple[Fraction, ...]
    weigh_outs: tuple[Bowl, ...]
    cannot: CannotWeigh | None

    @cached_property
    def weighed(self) -> Fraction:
        """Mixed weight of all weigh-outs, as read on the scale."""
        return exact_sum(bowl.total for bowl in self.weigh_outs)

    @cached_property
    def cost(self) -> Fraction | None:
        """What is known of the cost of all weigh-outs, exact; None where nothing is."""
        return known_sum(bowl.cost for bowl in self.weigh_outs)

    @property
    def complete(self) -> bool:
        """Whether it is weighed out, and no price is missing."""
        known = (cost is not None for bowl in self.weigh_outs for cost in bowl.costs)
        return self.cannot is None and all(known)

    @cached_property
    def left_over(self) -> Fraction:
        """Mixed weight as weighed beyond the need.

        What the waste allowance is for stays in the bowl and on the brush, and does not count as left over.
        """
        return max(self.weighed - self.need, Fraction(0))


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
    each_has = [{unit for unit, _, _ in ladder_of(book, blend)} for blend in blends]
    for unit in units:
        if all(unit in has for has in each_has):
            return unit
    raise CannotPlan(
        "The house has sizes and a scale's step together in no unit.",
        "Write both, as batches and scale_step, in house.yml.",
    )


class BowlPlanner:
    """Plans one bowl of a technique, weighed in ``unit``, for any hair amount.

    The plans of a technique for all hair amounts take few different batches: each is mixed once.
    """

    def __init__(self, book: Book, technique: Technique, bowl: TechniqueBowl, unit: str) -> None:
        self._book, self._technique, self._bowl, self._unit = book, technique, bowl, unit
        self._blend = book.blends[bowl.blend]
        self._developer = book.developer(bowl.developer or self._blend.developer.product)
        self._sizes = [batch for own, batch, _ in ladder_of(book, self._blend) if own == unit]
        self._to_lightener = 1 / (1 + exact_sum(proportions(self._blend)[1]))
        self._mixed: dict[Fraction, Bowl] = {}

    def plan(self, factors: HairFactors, applied: Applying) -> BowlPlan:
        """The bowl for a head. ``applied``: its sections and minutes on that head.

        Where applying, turns of other bowls included, takes longer than the blend stays fresh, the sections
        are shared evenly over as few fresh bowls as that allows, the first ones taking one more where they do
        not divide. Each fresh bowl is covered by the blend's sizes (`cover`), or by one batch of any size,
        rounded up to a step, where the house allows that. Raises `CannotPlan`.
        """
        blend, bowl = self._blend, self._bowl
        sections, turn = applied.sections, applied.turn
        if sections is None or bowl.sections is None or bowl.mix_per_section is None:
            raise CannotPlan(
                f"The bowl of {blend.name} in {self._technique.name} has no amounts.",
                "Add sections and mix_per_section.",
            )
        bowls = 1
        if turn is not None and blend.fresh_for is not None:
            if turn > blend.fresh_for:
                raise CannotPlan(
                    f"One section takes longer than {blend.name} stays fresh.",
                    "Take smaller sections: change sections, mix_per_section and minutes_per_section.",
                    "minutes_per_section",
                )
            # Whole sections: one that is begun must be finished from a fresh bowl.
            bowls = ceil(sections / (blend.fresh_for // turn))
        each, more = divmod(sections, bowls)
        shared = [each + 1] * more + [each] * (bowls - more)
        factor = factors.of(bowl)
        # The factor has the hair amount in it already: more sections share the same total.
        per_section = in_unit(bowl.mix_per_section, self._unit) * factor * bowl.sections / sections
        fresh = tuple(self._fresh(count, per_section * count, turn and turn * count) for count in shared)
        return BowlPlan(bowl, factor, blend, self._developer, fresh)

    def _fresh(self, sections: int, bare: Fraction, minutes: Fraction | None) -> FreshBowl:
        """One fresh bowl for some of the sections; ``bare``: its mixed weight without the waste allowance."""
        book, blend, unit = self._book, self._blend, self._unit
        waste = bare * (book.house.waste_allowance or Fraction(0)) / 100
        need = bare + waste
        lightener = need * self._to_lightener
        step = book.house.scale_step.of(unit)
        if step is None or not self._sizes:
            other = service_unit(book, [blend])
            raise CannotPlan(
                f"The house does not mix in {unit}.",
                f"It mixes in {other}; for {unit} write sizes and a scale's step, as batches and scale_step, "
                "in house.yml.",
            )
        batches = _batches(book, blend, lightener, self._sizes, step)
        weigh_outs: tuple[Bowl, ...] = ()
        cannot = None
        try:
            weigh_outs = tuple([self._mix(batch, step) for batch in batches])
        except CannotWeigh as zero:
            cannot = zero
        return FreshBowl(sections, minutes, unit, step, need, waste, lightener, batches, weigh_outs, cannot)

    def _mix(self, batch: Fraction, step: Fraction) -> Bowl:
        # The step is the unit's own and never differs within one planner.
        if batch not in self._mixed:
            self._mixed[batch] = mix(self._book, self._blend, self._unit, batch, step, self._developer)
        return self._mixed[batch]


def _batches(
    book: Book, blend: Blend, lightener: Fraction, sizes: list[Fraction], step: Fraction
) -> tuple[Fraction, ...]:
    """The batches for one fresh bowl, all weights in one unit."""
    if book.house.any_batch:
        return (ceil(lightener / step) * step,)  # up: a bowl that runs out leaves hair half done
    try:
        return cover(lightener, sizes)
    except CannotCover as refusal:
        if refusal.weigh_outs is None:
            raise CannotPlan(
                f"The sizes of {blend.name} are too many and too uneven to choose from.",
                "Write fewer batches, in whole steps of the scale.",
            ) from refusal
        raise CannotPlan(
            f"{blend.name} would take {refusal.weigh_outs} weigh-outs in one bowl.",
            "Look at sections and mix_per_section, or give it larger batches.",
        ) from refusal
