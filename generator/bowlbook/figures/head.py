"""A head of hair with a wish, as bit sets: one set of words or levels a facet, empty where it was unsaid."""

from collections.abc import Callable
from functools import lru_cache

from bowlbook.entries.facets import FACET_WORDS, FACETS, Facets, facet_values
from bowlbook.reading.amount import Span

DOMAINS: dict[str, tuple[int | str, ...]] = {
    "natural_level": tuple(range(1, 11)),
    "target_level": tuple(range(1, 11)),
    "lift": tuple(range(1, 10)),
    **FACET_WORDS,
}
"""The words or levels of each facet; bit n of a set is the n-th."""

Head = tuple[int, ...]
"""A bit set for each of `FACETS`, in their order; 0 means that the facet was not said."""

NATURAL, TARGET, LIFT = (FACETS.index(name) for name in ("natural_level", "target_level", "lift"))
PLACEMENT = FACETS.index("placement")


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
            "history": ("virgin",),
            "area": ("lengths",),
        }.get(name),
    )
    for name in FACETS
)
"""The usual head, for ranking only: where a facet was not said, recipes for unusual heads come later."""


def values_of(facet: str, bits: int) -> tuple[int | str, ...]:
    """The words or levels in a bit set."""
    return tuple(word for n, word in enumerate(DOMAINS[facet]) if bits >> n & 1)


def head_of(facets: Facets) -> Head:
    """The bit sets of a set of heads."""
    return tuple(
        [
            bits_of(name, value) if value else 0
            for name, value in zip(FACETS, facet_values(facets), strict=True)
        ]
    )


def completed(head: Head) -> Head | None:
    """A head with the third of natural level, target level and lift worked out from the other two.

    lift = target level - natural level. Where all three are said they stay as they are. None where natural
    and target level leave nothing to lift, or no head is like that.
    """
    natural, target, lift = head[NATURAL], head[TARGET], head[LIFT]
    found = list(head)
    if natural and target and not lift:
        found[LIFT] = _pairs(natural, target, lambda n, t: t - n, 9)
        if not found[LIFT]:
            return None
    elif natural and lift and not target:
        found[TARGET] = _pairs(natural, lift, lambda n, step: n + step, 10)
        if not found[TARGET]:
            return None
    elif target and lift and not natural:
        found[NATURAL] = _pairs(target, lift, lambda t, step: t - step, 10)
        if not found[NATURAL]:
            return None
    return tuple(found)


def _pairs(one: int, other: int, join: Callable[[int, int], int], most: int) -> int:
    bits = 0
    for first in range(10):
        for second in range(10):
            if one >> first & 1 and other >> second & 1:
                number = join(first + 1, second + 1)
                if 1 <= number <= most:
                    bits |= 1 << (number - 1)
    return bits


def holds(when: Head, head: Head) -> bool:
    """Whether a clause certainly holds: every facet it names was said, and is within it."""
    for wanted, asked in zip(when, head, strict=True):
        if wanted and (not asked or asked & ~wanted):
            return False
    return True


def may_hold(when: Head, head: Head) -> bool:
    """Whether a clause may hold: no facet that was said is outside it."""
    for wanted, asked in zip(when, head, strict=True):
        if wanted and asked and not asked & wanted:
            return False
    return True
