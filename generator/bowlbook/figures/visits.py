"""How much lift one visit gives, and a wish for more as a plan over visits.

Common practice, no published source: what a strand test says, and the maker's leaflet, count before it.
"""

from collections.abc import Sequence
from math import ceil
from typing import NamedTuple

from bowlbook.entries.house import House
from bowlbook.entries.usual import usual
from bowlbook.figures.head import (
    AREA,
    HISTORY,
    LIFT,
    LIGHTENED,
    NATURAL,
    REGROWTH,
    TARGET,
    Head,
    holds,
    lowest,
)
from bowlbook.figures.stop import VISITS, Stop


class Visit(NamedTuple):
    """One visit of a plan: the level it ends at, its levels of lift, and the weeks since the one before."""

    to: int
    lift: int
    weeks_later: int


class InOneVisit(NamedTuple):
    """The most levels of lift in one visit, the fewest weeks to the next, and the rules that say so."""

    levels: int
    weeks: int
    because: tuple[Stop, ...]


def house_visit(house: House) -> tuple[int, int]:
    """The most levels in one visit of sound hair, and the fewest weeks to the next: the house's, or the usual
    ones where those are stricter."""
    # 9 and 0, where the house says nothing, leave the usual ones: a house may only be stricter.
    levels = min(usual().lift_in_a_visit, house.lift_in_a_visit or 9)
    return levels, max(usual().weeks_between_visits, house.weeks_between_visits or 0)


def in_one_visit(in_house: tuple[int, int], stops: Sequence[Stop], head: Head) -> InOneVisit:
    """What one visit gives a head as it is judged: the fewest levels and the most weeks that anything says.

    ``in_house``: see `house_visit`.
    """
    levels, weeks = in_house
    found = [each for each in stops if each.effect == VISITS and holds(each.when, head)]
    levels = min([levels, *(each.levels for each in found if each.levels)])
    weeks = max([weeks, *(each.weeks for each in found)])
    return InOneVisit(levels, weeks, tuple(each for each in found if each.levels == levels))


def plan_of(
    in_house: tuple[int, int], stops: Sequence[Stop], head: Head, start: int, lift: int
) -> tuple[Visit, ...]:
    """A lift of ``lift`` levels from level ``start`` over as few visits as it takes.

    From the second visit on the hair was lightened before, and takes what such hair takes. The lift is shared
    as evenly as that allows; the larger share comes first, while the hair is sound.
    """
    first = in_one_visit(in_house, stops, head)
    lightened = list(head)
    if head[AREA] != REGROWTH:
        lightened[HISTORY] |= LIGHTENED
    later = in_one_visit(in_house, stops, tuple(lightened))
    count = 1 + max(0, ceil((lift - first.levels) / later.levels))
    found = []
    left, level = lift, start
    for number in range(count):
        visits_after = count - number - 1
        most = later.levels if number else first.levels
        # An even share of what is left, or more where the later visits could not take the rest.
        own = min(most, max(ceil(left / (visits_after + 1)), left - visits_after * later.levels))
        level, left = level + own, left - own
        found.append(Visit(level, own, later.weeks if number else 0))
    return tuple(found)


def visits_for(in_house: tuple[int, int], stops: Sequence[Stop], judged: Head) -> tuple[Visit, ...]:
    """The plan for a wish, as a head is judged, that takes more than one visit; empty where one is enough, or
    where the level that it starts from is not known. ``in_house``: see `house_visit`."""
    lift = least_lift(judged)
    if not judged[NATURAL] or lift <= in_one_visit(in_house, stops, judged).levels:
        return ()
    return plan_of(in_house, stops, judged, lowest(judged[NATURAL]), lift)


def least_lift(judged: Head) -> int:
    """The fewest levels of lift that the wish may mean, to level 10 at most; 0 where none is known."""
    lift, natural, target = judged[LIFT], judged[NATURAL], judged[TARGET]
    least = lowest(lift)
    if natural and target:
        least = max(least, lowest(target) - natural.bit_length())
    return min(least, 10 - lowest(natural)) if natural else least
