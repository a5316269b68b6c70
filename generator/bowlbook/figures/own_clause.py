"""Clauses that a recipe brings itself: its own refusals, the heads it is not meant for, the scalp unasked."""

from collections.abc import Iterator

from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import Facets
from bowlbook.entries.technique import TechniqueNotFor
from bowlbook.figures import head as bits
from bowlbook.figures.ruling import NOT_MEANT, OWN, Clause


def own_clauses(kind: str, refusals: tuple[NotFor, ...] | tuple[TechniqueNotFor, ...]) -> tuple[Clause, ...]:
    """What a blend or a technique (``kind``) refuses in its own words."""
    return tuple(
        Clause(bits.head_of(each.when), each.because, OWN, (kind, each.instead) if each.instead else None)
        for each in refusals
    )


def not_meant(blend: Blend, within: Facets) -> Iterator[Clause]:
    """The heads that a blend in a bowl is not meant for, as clauses: where ``within``, the facets of its
    technique, says no less than the blend, there is none."""
    technique = bits.head_of(within)
    for place, suits in enumerate(bits.head_of(blend.suits)):
        name = bits.PLACES[place]
        said_by_both = technique[place] and not technique[place] & ~suits
        if not suits or said_by_both or place in (bits.AREA, bits.PLACEMENT, bits.TARGET):
            continue
        every = bits.COLOURED if place == bits.HISTORY else (1 << len(bits.DOMAINS[name])) - 1
        others = every & ~suits
        if others:
            words = " or ".join(map(str, bits.values_of(name, suits)))
            because = f"It is meant for {name.replace('_', ' ')} {words}."
            yield Clause(bits.head_with(**{name: others}), because, NOT_MEANT)


def unasked(placements: tuple[str, ...]) -> tuple[Clause, ...]:
    """What keeps a recipe for the scalp alone from a head without a said area or placement."""
    return (ON_SCALP_UNASKED,) if placements == ("on-scalp",) else ()


ON_SCALP_UNASKED = Clause(
    bits.head_with(reach=bits.UNASKED),
    "It goes on the scalp, which nobody asked for: say scalp regrowth where that is meant.",
    "usual: common practice, no published source",
)
