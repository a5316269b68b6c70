"""What stops a head or must be asked or tested first: rules compiled to clauses, and which of them hold."""

from collections.abc import Sequence
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.entries.house import House
from bowlbook.entries.product import Developer
from bowlbook.entries.rule import Rule
from bowlbook.entries.usual import usual
from bowlbook.figures.head import REGROWTH, VOLUMES, Head, bits_of, head_of, head_with, holds, place_in
from bowlbook.figures.peroxide import nominal_percent
from bowlbook.figures.tally import any_of
from bowlbook.reading.amount import plain

EFFECTS = STOP, TEST, CARE, VISITS = ("stop", "test_first", "care", "visits")
ON_SCALP = bits_of("placement", ("on-scalp",))


class Stop(NamedTuple):
    """One rule about a head itself. ``effect``: one of the four above. ``do``: what to do, in words.

    ``toning``: whether a wish without lift may be toned all the same. ``standing``: on whose word, in words.
    ``levels``, ``weeks``: the most levels in a visit and the fewest weeks to the next; 0 where it sets none.
    """

    when: Head
    effect: str
    do: str
    because: str
    standing: str
    toning: bool = False
    levels: int = 0
    weeks: int = 0


def stops_of(house: House) -> tuple[Stop, ...]:
    """The usual stops, tests, cautions and limits of a visit, then a house's and its volume on the scalp."""
    limit = house.on_scalp_developer_limit
    return (*_among(usual().rules), *_among(house.rules), *_over_the_house_limit(limit))


@lru_cache(maxsize=16)  # several checks of every situation ask
def _among(rules: tuple[Rule, ...]) -> tuple[Stop, ...]:
    return tuple([_stop(rule) for rule in rules if rule.effect in EFFECTS])


def _stop(rule: Rule) -> Stop:
    do = rule.stop or rule.test_first or rule.care or ""
    levels, weeks = (rule.visits.levels or 0, rule.visits.weeks or 0) if rule.visits else (0, 0)
    when, standing = head_of(rule.when), standing_of(rule)
    return Stop(when, rule.effect, do, rule.because, standing, rule.toning, levels, weeks)


def standing_of(rule: Rule) -> str:
    """On whose word a rule stands, in words: a published one with where, since when and in which text."""
    if rule.standing == "published source":
        return published(rule.jurisdiction, rule.since, rule.source)
    return f"{rule.standing}: {rule.source}" if rule.source else rule.standing


def published(jurisdiction: str | None, since: date | None, source: str | None) -> str:
    """A published text: where it holds, since when, and which it is, as far as these are known."""
    where = [jurisdiction, f"since {since}" if since else None]
    return ", ".join(["published", *filter(None, where)]) + (f": {source}" if source else "")


@lru_cache(maxsize=16)  # as for `_among`
def _over_the_house_limit(limit: Fraction) -> tuple[Stop, ...]:
    """A wish for more volume on the scalp than the house puts there."""
    over = tuple(volume for volume in VOLUMES if volume > limit)
    return tuple(
        Stop(
            head_with(volume=sum(1 << VOLUMES.index(volume) for volume in over), **{name: bits}),
            STOP,
            f"Over {plain(limit)} volume on the scalp: not in this house.",
            "The house puts nothing stronger on a scalp.",
            "this house",
        )
        # Either says that it goes on the scalp.
        for name, bits in (("placement", ON_SCALP), ("area", REGROWTH))
    )


def in_force(stops: Sequence[Stop], head: Head, *, lightens: bool) -> list[Stop]:
    """The stops, tests and cautions that hold for a head as it is judged, in their order.

    ``lightens``: whether any lift is asked for; where none is, what still allows toning is left out.
    """
    return [
        each
        for each in stops
        if each.effect != VISITS and (lightens or not each.toning) and holds(each.when, head)
    ]


def volume_stops(house: House, shares: Sequence[Fraction]) -> tuple[Stop, ...]:
    """For each of the house's limits, a stop for the volumes that break it in every lightening bowl.

    The peroxide of a volume is nominal: `bowlbook.figures.peroxide`. A volume that some bowls could take is
    not stopped: what is mixed is the recipe as written, and the check `peroxide-over-limit` judges that.
    ``shares``: the `bowlbook.figures.proportion.developer_share` of each lightening bowl.
    """
    if not shares:
        return ()
    # The bowl with the least developer holds the least peroxide: what breaks a limit there breaks it in all.
    least = min(shares)
    found = []
    for limit in house.limits:
        over = [volume for volume in VOLUMES if nominal_percent(Fraction(volume)) * least > limit.peroxide]
        if over:
            within = [volume for volume in VOLUMES if volume < over[0]]
            stop = f"Over {within[-1]} volume: no." if within else "No volume at all."
            most = f"{plain(limit.peroxide)} % peroxide"
            because = f"Every bowl of this book would hold more than {most}, the most on hair there."
            when = head_with(volume=sum(1 << VOLUMES.index(volume) for volume in over))
            standing = published(limit.jurisdiction, limit.since, limit.source)
            found.append(Stop(when, STOP, stop, because, standing))
    return tuple(found)


def volumes_of(book: Book) -> int:
    """The volumes of the book's developers as bits of the facet: what can be asked for there."""
    developers = (each for each in current(book.products).values() if isinstance(each, Developer))
    return any_of(1 << place_in("volume", each.volume) for each in developers)
