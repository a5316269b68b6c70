"""Which two developers make a third, and a bowl's peroxide and limits with each that it allows."""

from dataclasses import dataclass
from fractions import Fraction

from generator.book.book import Book
from generator.entries.house import Limit
from generator.entries.product import Developer, Lightener, Toner
from generator.figures.bowl import Bowl, developers_of
from generator.figures.peroxide import Alligation, alligation, peroxide_in_bowl


@dataclass(frozen=True, slots=True)
class StandIn:
    """Two developers that together stand in for a third: parts by weight."""

    weaker: Developer
    stronger: Developer
    parts: Alligation


def stand_in(book: Book, developer: Developer) -> StandIn | None:
    """The nearest weaker and stronger developers of the book, and their parts by weight.

    None where the book has nothing weaker or nothing stronger. Of equal strengths the first by id is taken.
    """
    wanted = developer.peroxide_percent
    others = [each for each in book.products.values() if isinstance(each, Developer)]
    weaker = [each for each in others if each.peroxide_percent < wanted]
    stronger = [each for each in others if each.peroxide_percent > wanted]
    if not weaker or not stronger:
        return None
    low = min(weaker, key=lambda each: (-each.peroxide_percent, each.id))
    high = min(stronger, key=lambda each: (each.peroxide_percent, each.id))
    return StandIn(low, high, alligation(low.peroxide_percent, high.peroxide_percent, wanted))


def peroxide_by_developer(book: Book, bowl: Bowl) -> list[tuple[Developer, Fraction]]:
    """The same bowl's peroxide in per cent with each developer that its blend allows, its own first.

    Another developer is poured to the same weight.
    """
    developed = next(pour.reading.weigh for pour in bowl.pours if pour.role == "developer")
    return [
        (each, peroxide_in_bowl(each.peroxide_percent, developed, bowl.total))
        for each in developers_of(book, bowl.blend)
    ]


@dataclass(frozen=True, slots=True)
class LimitsPassed:
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
