"""Sets of heads as exact regions: what two have in common, and what some of them leave of another.

A region is a product: one bit set for the levels, one for each other facet. Natural level, lift and target
level depend on each other (lift = target level - natural level), so each bit of the first is a pair of
natural level and lift whose target level exists. A facet that was not said holds all of its values.
"""

from collections.abc import Sequence
from functools import lru_cache

from bowlbook.entries.facets import FACETS, Facets
from bowlbook.figures.head import DOMAINS, LIFT, NATURAL, TARGET, bits_of
from bowlbook.figures.tally import places_of
from bowlbook.reading.amount import Span

Region = tuple[int, ...]
"""The bit set of `PAIRS`, then one for each of `OTHERS`; none of them is 0."""

PAIRS = tuple((natural, lift) for natural in range(1, 11) for lift in range(11 - natural))
"""Every natural level with every lift that it has room for, to level 10 at most; 0: nothing is lifted."""
LEVEL_FACETS = (FACETS[NATURAL], FACETS[TARGET], FACETS[LIFT])
OTHERS = {name: (1 << len(DOMAINS[name])) - 1 for name in FACETS if name not in LEVEL_FACETS}
"""Every other facet, with the bit set of all its values."""


def region_of(facets: Facets) -> Region | None:
    """The region of a set of heads; None where its levels leave no head."""
    pairs = _pairs_of(facets.natural_level, facets.target_level, facets.lift)
    if not pairs:
        return None
    others = [
        bits_of(name, value) if (value := getattr(facets, name)) else every for name, every in OTHERS.items()
    ]
    return (pairs, *others)


@lru_cache(maxsize=4096)  # few spans of levels, in thousands of recipes
def _pairs_of(natural: Span | None, target: Span | None, lift: Span | None) -> int:
    return sum(
        1 << place
        for place, (level, levels) in enumerate(PAIRS)
        if (natural is None or level in natural)
        and (lift is None or levels in lift)
        and (target is None or level + levels in target)
    )


def common(first: Region | None, second: Region | None) -> Region | None:
    """The heads of both regions; None where there is none."""
    if first is None or second is None:
        return None
    # A product of sets is empty as soon as one of them is.
    met = tuple(one & other for one, other in zip(first, second, strict=True))
    return met if all(met) else None


def outside(region: Region | None, covers: Sequence[Region | None]) -> Region | None:
    """Some of the heads of a region that are in none of the others; None where these cover it together."""
    if region is None or not covers:
        return region
    first, rest = covers[0], covers[1:]
    if first is None or common(region, first) is None:
        return outside(region, rest)
    # Facet by facet: heads with a value that the first cover lacks are outside it, whatever else they are;
    # those with a value of it go on to the next facet. What is left at the end is covered.
    for place, (mine, theirs) in enumerate(zip(region, first, strict=True)):
        if mine & ~theirs:
            left = outside((*region[:place], mine & ~theirs, *region[place + 1 :]), rest)
            if left is not None:
                return left
        region = (*region[:place], mine & theirs, *region[place + 1 :])
    return None


def levels_reached(region: Region) -> tuple[int, ...]:
    """The levels that the heads of a region are lifted to, lowest first."""
    pairs = [PAIRS[place] for place in places_of(region[0])]
    return tuple(sorted({natural + lift for natural, lift in pairs if lift}))
