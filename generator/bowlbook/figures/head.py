"""A head of hair with a wish, as bit sets: one set of words or levels a facet, empty where it was unsaid."""

from collections.abc import Callable
from fractions import Fraction
from functools import lru_cache
from operator import add, sub

from bowlbook.entries.circumstances import CIRCUMSTANCES, HEAT, MOST_WEEKS, PERSONS, WORN
from bowlbook.entries.facets import AREAS, COLOUR_HISTORIES, FACET_WORDS, HISTORIES, Facets
from bowlbook.figures.tally import places_of
from bowlbook.reading.amount import Span

VOLUMES = tuple(range(5, 65, 5))
"""The volumes that a wish is sorted into: the next one at or above it."""

DOMAINS: dict[str, tuple[int | str, ...]] = {
    "natural_level": tuple(range(1, 11)),
    "target_level": tuple(range(1, 11)),
    "lift": tuple(range(1, 10)),
    **FACET_WORDS,
    "wearing": WORN,
    "person": PERSONS,
    "weeks": tuple(range(MOST_WEEKS + 1)),
    "volume": VOLUMES,
    "heat": HEAT,
    "now": tuple(range(1, 11)),
    "wish": ("lighter", "no lift", "a deeper level"),
    "reach": (*AREAS, "the scalp, unasked"),
}
"""The words or levels of each facet; bit n of a set is the n-th."""

PLACES = (*CIRCUMSTANCES, "now", "wish", "reach")
"""What a head says, in order. ``now``: the level that it shows, where that is not the natural one. ``wish``:
what is asked for: a lift, none, or a deeper level.
``reach``: the areas that are worked on, all of them where none was said."""

Head = tuple[int, ...]
"""A bit set for each of `PLACES`, in their order; 0 means that the facet was not said."""

NATURAL, TARGET, LIFT, HISTORY, AREA, PLACEMENT, TONE, PERSON, WEEKS, VOLUME, NOW, WISH, REACH = (
    PLACES.index(name)
    for name in (
        *("natural_level", "target_level", "lift", "history", "area", "placement", "tone"),
        *("person", "weeks", "volume", "now", "wish", "reach"),
    )
)
LIGHTER, NO_LIFT, DEEPER = 1, 2, 4
"""The bits of a wish."""

AT_ONCE = frozenset(
    PLACES.index(name) for name in ("condition", "history", "area", "wearing", "person", "reach")
)
"""Facets of which several are true of one head at the same time: one of them is enough for a clause to hold.
Of any other facet several values mean that it is one of them."""

EVERY_AREA = (1 << len(AREAS)) - 1
UNASKED = 1 << len(AREAS)
"""The bit of a reach where nobody said an area or a placement: nothing is put on a scalp unasked."""
REGROWTH = 1 << AREAS.index("scalp regrowth")
COLOURED = (1 << len(COLOUR_HISTORIES)) - 1
"""The bits of a history that recipes are written for: virgin, previously lightened, previously coloured."""
VIRGIN = 1 << HISTORIES.index("virgin")
LIGHTENED = 1 << HISTORIES.index("previously lightened")


@lru_cache(maxsize=4096)  # few sets of words, in thousands of recipes
def bits_of(facet: str, value: Span | tuple[str, ...] | None) -> int:
    """The bit set of a facet's words or span; 0 for none."""
    if not value:
        return 0
    if isinstance(value, Span):
        return sum(1 << n for n, level in enumerate(DOMAINS[facet]) if int(level) in value)
    return sum(1 << n for n, word in enumerate(DOMAINS[facet]) if word in value)


USUAL: Head = tuple(
    bits_of(
        name,
        {
            "texture": ("medium",),
            "density": ("medium",),
            "porosity": ("low", "medium"),
            "curl": ("straight", "wavy"),
            "condition": ("sound",),
            "grey": ("none",),
            "history": ("virgin",),
            "area": ("lengths",),
        }.get(name),
    )
    for name in PLACES
)
"""The usual head, for ranking only: where a facet was not said, recipes for unusual heads come later."""


def values_of(facet: str, bits: int) -> tuple[int | str, ...]:
    """The words or levels in a bit set."""
    return tuple(word for n, word in enumerate(DOMAINS[facet]) if bits >> n & 1)


def lowest(levels: int) -> int:
    """The lowest of some levels, given as bits; 0 for none."""
    return (levels & -levels).bit_length()


def place_in(facet: str, number: float | Fraction) -> int:
    """The place of the first value at or above a number; of the last one where none is."""
    known = DOMAINS[facet]
    # Upwards, since more volume is the greater risk; more weeks than the last value change no rule.
    return next((place for place, value in enumerate(known) if int(value) >= number), len(known) - 1)


def head_of(facets: Facets) -> Head:
    """The bit sets of a set of heads, or of the circumstances that a rule names."""
    # Most facets are left out: those need no lookup.
    return tuple([bits_of(name, value) if (value := getattr(facets, name, None)) else 0 for name in PLACES])


def head_with(**said: int) -> Head:
    """A head of which only these facets are said, each as a bit set."""
    return tuple(said.get(name, 0) for name in PLACES)


def head_but(head: Head, place: int, bits: int) -> Head:
    """A head with another bit set at one place."""
    return (*head[:place], bits, *head[place + 1 :])


def completed(head: Head) -> Head | None:
    """A head with the third of natural level, target level and lift computed from the other two.

    lift = target level - the level it starts from: what the hair shows now, else the natural level. Where
    all three are said they stay as they are. None where these leave nothing to lift, or no head is like that.
    """
    # New growth was never lifted, whatever level the lengths show.
    start = NOW if head[NOW] and head[AREA] != REGROWTH else NATURAL
    natural, target, lift = head[start], head[TARGET], head[LIFT]
    if natural and target and not lift:
        place, bits = LIFT, _joined(target, natural, sub, 9)
    elif natural and lift and not target:
        place, bits = TARGET, _joined(natural, lift, add, 10)
    elif target and lift and not natural:
        place, bits = start, _joined(target, lift, sub, 10)
    else:
        return head
    return head_but(head, place, bits) if bits else None


def _joined(one: int, other: int, join: Callable[[int, int], int], most: int) -> int:
    """The levels, from 1 to ``most``, that any level of one set gives with any of another; as bits."""
    numbers = {join(first + 1, second + 1) for first in places_of(one) for second in places_of(other)}
    return sum(1 << number - 1 for number in numbers if 1 <= number <= most)


def assumed(head: Head, *, one_head: bool = True) -> Head:
    """A completed head as it is judged: with what a careful colourist takes for granted.

    The lift starts from the level that the hair shows now; new growth on the scalp was never coloured or
    lightened and starts from the natural level; where no area was said all are meant. ``one_head``: of one
    head in the chair, weeks that nobody knows count as none, and nothing goes on a scalp that was not asked
    for; a page about many heads asks instead.
    """
    found = list(head)
    area = head[AREA]
    if area == REGROWTH:
        if head[HISTORY] & COLOURED:
            found[HISTORY] = head[HISTORY] & ~COLOURED | VIRGIN
    elif head[NOW]:
        found[NATURAL] = head[NOW]
    if not head[WEEKS] and one_head:
        found[WEEKS] = 1  # the bit of 0 weeks
    unasked = UNASKED if one_head and not head[PLACEMENT] else 0
    found[REACH] = area or EVERY_AREA | unasked
    return tuple(found)


def asks_for_no_lift(head: Head) -> bool:
    """Whether a wish is for tone or depth alone: a level that the hair has or is past; or only a tone, for
    hair that was lightened before."""
    if head[WISH] and not head[WISH] & LIGHTER:
        return True
    new_growth = head[AREA] == REGROWTH
    start = head[NATURAL] if new_growth or not head[NOW] else head[NOW]
    if head[TARGET] and start and not head[LIFT]:
        return head[TARGET].bit_length() <= lowest(start)
    if head[TARGET] or head[LIFT] or not head[TONE] or new_growth:
        return False
    lifted = head[NOW] and head[NATURAL] and lowest(head[NOW]) > head[NATURAL].bit_length()
    return bool(head[HISTORY] & LIGHTENED or lifted)


def holds(when: Head, head: Head) -> bool:
    """Whether a clause certainly holds: every facet it names was said, and is within it. Where several
    are true at once, as a history, one of them is enough."""
    for place, wanted in enumerate(when):
        if wanted:
            asked = head[place]
            if not asked & wanted or (asked & ~wanted and place not in AT_ONCE):
                return False
    return True


def may_hold(when: Head, head: Head) -> bool:
    """Whether a clause may hold: no facet that was said is outside it."""
    for wanted, asked in zip(when, head, strict=True):
        if wanted and asked and not asked & wanted:
            return False
    return True
