"""Which two developers of the shelf make a third, and a bowl's peroxide with each developer it allows."""

from dataclasses import dataclass
from fractions import Fraction

from generator.book.book import Book
from generator.entries.product import Developer
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
