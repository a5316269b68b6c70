"""Which two developers make a third, and a bowl's peroxide and limits with each that it allows."""

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import PLACEMENTS
from bowlbook.entries.house import Limit
from bowlbook.entries.product import Developer, Lightener, Toner
from bowlbook.figures.bowl import Bowl, developers_of
from bowlbook.figures.peroxide import Alligation, alligation, mixed_strength, peroxide_in_bowl
from bowlbook.figures.weigh_out import Reading, ReadsZero, running_totals, weigh_out


class StandIn(NamedTuple):
    """Two developers that together stand in for a third: parts by weight."""

    weaker: Developer
    stronger: Developer
    parts: Alligation

    def readings(self, weight: Fraction, step: Fraction) -> tuple[Reading, Reading] | None:
        """What to weigh of the weaker and of the stronger for ``weight`` of both, in whole steps.

        Both in one unit. The readings add up to the weight, shared by largest remainder as in `weigh_out`.
        None where one of them would read zero.
        """
        try:
            weaker, stronger = weigh_out(weight, [Fraction(each) for each in self.parts], step)
        except ReadsZero:
            return None
        return weaker, stronger


class StandInBowl(NamedTuple):
    """A stand-in weighed into a bowl. ``scale_shows`` after the weaker and the stronger, the bowl tared once.

    ``percent``: hydrogen peroxide in the two together, as weighed. ``error``: the worst relative error of the
    two readings, as a fraction of 1.
    """

    weigh: tuple[Fraction, Fraction]
    scale_shows: tuple[Fraction, Fraction]
    percent: Fraction
    error: Fraction


def stand_in(
    book: Book, developer: Developer, placements: Iterable[str] = (), limit: Fraction | None = None
) -> StandIn | None:
    """The nearest weaker and stronger developers that may be used, and their parts by weight.

    Neither may be over ``limit`` in volumes, nor over the house's limit where ``placements`` has on-scalp,
    nor be made for other placements only: what the two make is weak enough, but each is poured by itself.
    None where no two make it. Of equal strengths the first by id is taken.
    """
    wanted, places = developer.peroxide_percent, set(placements)
    limits = [] if limit is None else [limit]
    if "on-scalp" in places:
        limits.append(book.house.on_scalp_developer_limit)
    most = min(limits, default=None)
    allowed = [
        each
        for each in book.products.values()
        if isinstance(each, Developer)
        and not is_retired(each)
        and (most is None or each.volume <= most)
        and (not each.placement or places <= set(each.placement))
    ]
    weaker = [each for each in allowed if each.peroxide_percent < wanted]
    stronger = [each for each in allowed if each.peroxide_percent > wanted]
    if not weaker or not stronger:
        return None
    low = min(weaker, key=lambda each: (-each.peroxide_percent, each.id))
    high = min(stronger, key=lambda each: (each.peroxide_percent, each.id))
    return StandIn(low, high, alligation(low.peroxide_percent, high.peroxide_percent, wanted))


def stand_in_for(book: Book, blend: Blend, developer: Developer) -> StandIn | None:
    """`stand_in` for a developer in a blend: wherever the blend may go, and within its makers' limits."""
    places = set(blend.suits.placement or PLACEMENTS)
    bases = [book.base(each.product) for each in blend.shares]
    for base in bases:
        if isinstance(base, Lightener):
            places &= set(base.placement)
    limits = [base.developer_limit for base in bases if base.developer_limit is not None]
    # Where the makers agree on no placement, only what may be used everywhere will do.
    return stand_in(book, developer, places or PLACEMENTS, min(limits, default=None))


def stand_in_bowl(found: StandIn, bowl: Bowl) -> StandInBowl | None:
    """A stand-in weighed into a bowl to the weight of its developer; None where one of the two reads zero."""
    place = len(bowl.blend.shares)
    weighed = [reading.weigh for reading in bowl.weighing.readings[: place + 1]]
    readings = found.readings(weighed[place], bowl.step)
    if readings is None:
        return None
    weaker, stronger = (reading.weigh for reading in readings)
    shown = running_totals([*weighed[:place], weaker, stronger])
    strengths = (found.weaker.peroxide_percent, found.stronger.peroxide_percent)
    return StandInBowl(
        (weaker, stronger),
        (shown[-2], shown[-1]),
        mixed_strength(list(zip((weaker, stronger), strengths, strict=True))),
        max(reading.error for reading in readings),
    )


def peroxide_by_developer(book: Book, bowl: Bowl) -> list[tuple[Developer, Fraction]]:
    """The same bowl's peroxide in per cent with each developer that its blend allows, its own first.

    Another developer is poured to the same weight.
    """
    found, developed, total = developers_of(book, bowl.blend), bowl.developed, bowl.total
    return [(each, peroxide_in_bowl(each.peroxide_percent, developed, total)) for each in found]


class LimitsPassed(NamedTuple):
    """The limits that a bowl's developer is over.

    ``bases``: lighteners or toners whose maker allows a weaker one at most. ``on_scalp``: whether the blend
    is also for the scalp, and the developer over the house's limit there. ``legal``: the legal limits on
    peroxide in the bowl that this bowl is over.
    """

    bases: tuple[Lightener | Toner, ...]
    on_scalp: bool
    legal: tuple[Limit, ...]


def limits_passed(book: Book, bowl: Bowl) -> LimitsPassed:
    """Which limits the developer of a bowl is over; strengths in volumes, peroxide in per cent by weight."""
    volume = bowl.developer.volume
    bases = [book.base(each.product) for each in bowl.blend.shares]
    return LimitsPassed(
        tuple(each for each in bases if each.developer_limit is not None and volume > each.developer_limit),
        "on-scalp" in bowl.blend.suits.placement and volume > book.house.on_scalp_developer_limit,
        tuple(each for each in book.house.limits if bowl.peroxide > each.peroxide),
    )
