"""A wish for a volume against the house's limits on peroxide in the mixture as applied."""

from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Developer
from bowlbook.figures.candidate import lightening
from bowlbook.figures.head import VOLUMES, head_with
from bowlbook.figures.peroxide import nominal_percent, peroxide_in_bowl
from bowlbook.figures.stop import STOP, Stop, published
from bowlbook.reading.amount import plain


def volume_stops(book: Book) -> tuple[Stop, ...]:
    """For each of the house's limits, a stop for the volumes that break it in every lightening bowl.

    The peroxide of a volume is nominal: `bowlbook.figures.peroxide`. A volume that some bowls could take is
    not stopped: what is mixed is the recipe as written, and the check `peroxide-over-limit` judges that.
    """
    blends = lightening(book)
    if not blends:
        return ()
    least = min(map(_developer_share, blends))
    found = []
    for limit in book.house.limits:
        over = [volume for volume in VOLUMES if nominal_percent(Fraction(volume)) * least > limit.peroxide]
        if over:
            within = [volume for volume in VOLUMES if volume < over[0]]
            stop = f"Over {within[-1]} volume: no." if within else "No volume at all."
            most = f"{plain(limit.peroxide)} % peroxide"
            found.append(
                Stop(
                    head_with(volume=sum(1 << VOLUMES.index(volume) for volume in over)),
                    STOP,
                    stop,
                    f"Every bowl of this book would hold more than {most}, the most on hair there.",
                    published(limit.jurisdiction, limit.since, limit.source),
                )
            )
    return tuple(found)


def _developer_share(blend: Blend) -> Fraction:
    """The developer's share of everything in the bowl."""
    ratio = blend.developer.ratio.value
    whole = 1 + ratio + sum((each.ratio.value for each in blend.additives), Fraction(0))
    return peroxide_in_bowl(Fraction(1), ratio, whole)


def volumes_of(book: Book) -> int:
    """The volumes of the book's developers as bits of the facet: what can be asked for there."""
    bits = 0
    for each in current(book.products).values():
        if isinstance(each, Developer):
            bits |= 1 << next((n for n, most in enumerate(VOLUMES) if most >= each.volume), len(VOLUMES) - 1)
    return bits
