"""Many sets of heads at once: which of them a head belongs to, by masks instead of one after the other."""

from collections.abc import Sequence
from functools import reduce
from operator import and_
from typing import NamedTuple

from bowlbook.figures.head import AT_ONCE, DOMAINS, PLACES, Head
from bowlbook.figures.tally import any_of, masks_of, places_of


class HeadSets(NamedTuple):
    """``by_set``: of each facet, for each bit set that occurs, the sets of heads that say just that (0: any).
    ``named``: those that name the facet. ``holding``: for each of its values, those that name it.
    """

    every: int
    by_set: tuple[dict[int, int], ...]
    named: tuple[int, ...]
    holding: tuple[tuple[int, ...], ...]

    def with_all(self, place: int, asked: int) -> int:
        """Those that name a facet and hold everything in ``asked``, which is not empty."""
        return reduce(and_, (self.holding[place][value] for value in places_of(asked)))

    def with_any(self, place: int, asked: int) -> int:
        """Those that name a facet and hold something in ``asked``."""
        return any_of(self.holding[place][value] for value in places_of(asked))

    def certain(self, head: Head) -> int:
        """Those that certainly hold for a head: `bowlbook.figures.head.holds` for all of them."""
        found = self.every
        for place, (asked, named) in enumerate(zip(head, self.named, strict=True)):
            if not named:
                continue
            if place in AT_ONCE:
                within = self.with_any(place, asked)
            else:
                within = self.with_all(place, asked) if asked else 0
            found &= within | self.every ^ named
        return found


def head_sets(sets: Sequence[Head]) -> HeadSets:
    """Some sets of heads, in their order, made ready."""
    every = (1 << len(sets)) - 1
    by_set = tuple(masks_of([each[place] for each in sets]) for place in range(len(PLACES)))
    holding = tuple(
        tuple(
            any_of(mask for bits, mask in masks.items() if bits >> value & 1)
            for value in range(len(DOMAINS[facet]))
        )
        for facet, masks in zip(PLACES, by_set, strict=True)
    )
    return HeadSets(every, by_set, tuple(every ^ masks.get(0, 0) for masks in by_set), holding)
