"""Recipes compiled for matching: bit sets of the heads they suit, clauses that exclude or prefer.

Blends, techniques, and blends within a technique become alike, so that one short evaluation (`match.py`, and
its twin on the phone) serves all three.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache, partial
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import PLACEMENTS, Facets, meet
from bowlbook.entries.rule import Rule
from bowlbook.entries.technique import Technique, TechniqueBowl, TechniqueNotFor
from bowlbook.figures.head import (
    AREA,
    COLOURED,
    DOMAINS,
    EVERY_AREA,
    HISTORY,
    PLACEMENT,
    PLACES,
    REACH,
    TARGET,
    UNASKED,
    USUAL,
    Head,
    bits_of,
    head_of,
    head_with,
    may_hold,
    values_of,
)
from bowlbook.figures.ruling import (
    NOT_MEANT,
    OWN,
    Clause,
    MakeUp,
    Ruled,
    kept_by,
    make_up_of,
    rule_clauses,
    rules_of,
)
from bowlbook.figures.too_long import too_long
from bowlbook.figures.withdrawn import retired_in

CANDIDATE_KINDS = ("pair", "blend", "technique")


@dataclass(frozen=True, slots=True)
class Candidate:
    """One possible answer: a blend, a technique, or a blend within a technique (``within``)."""

    kind: str
    id: str
    name: str
    suits: Head
    excluded_by: tuple[Clause, ...]
    preferred_by: tuple[Clause, ...]
    within: str | None = None
    tones: bool = False
    named_facets: tuple[tuple[int, int, bool, int], ...] = field(init=False, repr=False, compare=False)
    """Of each facet it names: its place and set, whether for unusual heads only, how close it is meant."""
    may_meet: tuple[bool, ...] = field(init=False, repr=False, compare=False)
    """Of each clause that excludes: whether it may hold for a head that the recipe suits."""

    def __post_init__(self) -> None:
        # Derived once here, since every head is compared with every candidate.
        named = tuple(
            (place, suits, bool(USUAL[place] and not suits & USUAL[place]), max(0, 10 - suits.bit_count()))
            for place, suits in enumerate(self.suits)
            if suits
        )
        object.__setattr__(self, "named_facets", named)
        may_meet = tuple(may_hold(clause.when, self.suits) for clause in self.excluded_by)
        object.__setattr__(self, "may_meet", may_meet)


class _Bowl(NamedTuple):
    """A lightening bowl of a technique: its blend, what it is made like, the areas it goes to."""

    blend: Blend
    made: MakeUp
    reach: int


def candidates_of(book: Book) -> list[Candidate]:
    """Every blend that lightens, technique and blend-in-technique pair of a book, by name, id and kind.

    That order breaks ties when they are ranked.
    """
    ruled = _ruled(book)
    found = [_blend(book, ruled, blend) for blend in lightening(book)]
    for technique in book.techniques.values():
        found += _with_pairs(book, ruled, technique)
    return in_order(found)


def candidates_from(book: Book, kind: str, entry_id: str) -> list[Candidate]:
    """Those of `candidates_of` that come from one blend or technique: itself, then the pairs within it."""
    if kind == "blend":
        blend = book.blends[entry_id]
        return [] if blend.tones or retired_in(book, blend) else [_blend(book, _ruled(book), blend)]
    return _with_pairs(book, _ruled(book), book.techniques[entry_id])


def candidate_of(book: Book, kind: str, entry_id: str) -> Candidate | None:
    """The blend or technique of this id as `candidates_of` has it; None for one that only tones."""
    found = candidates_from(book, kind, entry_id)
    return found[0] if found else None


def in_order(found: Iterable[Candidate]) -> list[Candidate]:
    """Candidates in the order of `candidates_of`."""
    return sorted(
        found,
        key=lambda each: (each.name.casefold(), each.id, CANDIDATE_KINDS.index(each.kind), each.within or ""),
    )


def _ruled(book: Book) -> Ruled:
    """The clauses of a book's rules, worked out once for recipes that are made alike."""
    return cache(partial(rule_clauses, rules_of(book)))


def _with_pairs(book: Book, ruled: Ruled, technique: Technique) -> list[Candidate]:
    """A technique and its pairs; nothing where all its bowls tone."""
    bowls = _bowls(book, technique)
    if not bowls or retired_in(book, technique):
        return []
    late = too_long(book, technique)
    return [
        _technique(ruled, technique, bowls, late),
        *(
            _pair(ruled, technique, blend, bowls, late)
            for blend in {each.blend.id: each.blend for each in bowls}.values()
            if meet(blend.suits, technique.suits) is not None
        ),
    ]


def lightening(book: Book) -> list[Blend]:
    """The blends that lighten: those that a head is matched with. A toning bowl follows a technique.

    Without those that are retired, or of which anything in the bowl is.
    """
    return [blend for blend in book.blends.values() if not blend.tones and not retired_in(book, blend)]


def _bowls(book: Book, technique: Technique) -> list[_Bowl]:
    """The lightening bowls of a technique, alike ones once."""
    found = []
    for bowl in technique.bowls:
        blend = book.blends[bowl.blend]
        if not blend.tones:
            volume = book.developer(bowl.developer or blend.developer.product).volume
            made = make_up_of(book, blend, (technique.placement,), volume)
            found.append(_Bowl(blend, made, reach_of(book, technique, bowl)))
    return [each for place, each in enumerate(found) if each not in found[:place]]


def reach_of(book: Book, technique: Technique, bowl: TechniqueBowl) -> int:
    """The areas that a lightening bowl goes to, as bits: its own; else those of its technique that its blend
    is for; else, where the blend says none, those that no other lightening bowl is for."""
    whole = bits_of("area", technique.suits.area) or EVERY_AREA
    own = _named_areas(book, bowl, whole)
    if own:
        return own
    others = 0
    for each in technique.bowls:
        if not book.blends[each.blend].tones:
            others |= _named_areas(book, each, whole)
    return whole & ~others or whole


def _named_areas(book: Book, bowl: TechniqueBowl, whole: int) -> int:
    """The areas that a bowl, or else its blend, names; 0 for none within those of the technique."""
    if bowl.area:
        return bits_of("area", bowl.area)
    return bits_of("area", book.blends[bowl.blend].suits.area) & whole


def placements_of(book: Book, blend: Blend) -> tuple[str, ...]:
    """Where a blend may go: where it is meant to, as far as every lightener in it is made for that."""
    allowed = set(blend.suits.placement or PLACEMENTS)
    for each in blend.lighteners:
        allowed &= set(book.lightener(each.product).placement)
    return tuple(word for word in PLACEMENTS if word in allowed)


def _made_as_written(book: Book, blend: Blend, placements: tuple[str, ...]) -> MakeUp:
    """A blend with the developer that it is written for: that is what an answer says."""
    return make_up_of(book, blend, placements, book.developer(blend.developer.product).volume)


def _blend(book: Book, ruled: Ruled, blend: Blend) -> Candidate:
    placements = placements_of(book, blend)
    suits = with_placement(head_of(blend.suits), placements)
    excluded, preferred = ruled(_made_as_written(book, blend, placements), placements)
    own = own_clauses("blend", blend.not_for)
    against = (*own, *excluded, *unasked(placements))
    return Candidate("blend", blend.id, blend.name, suits, against, preferred)


def _technique(ruled: Ruled, technique: Technique, bowls: list[_Bowl], late: tuple[Clause, ...]) -> Candidate:
    """A technique: refused by its own words, by whatever refuses one of its bowls, and where it takes too
    long (``late``)."""
    suits = with_placement(head_of(technique.suits), (technique.placement,))
    own_words = own_clauses("technique", technique.not_for)
    excluded = [*own_words, *late, *unasked((technique.placement,))]
    preferred: dict[Clause, None] = {}
    for bowl in bowls:
        against, liked = ruled(bowl.made, (technique.placement,))
        against = (*own_clauses("blend", bowl.blend.not_for), *against)
        against = (*against, *not_meant(bowl.blend, technique.suits))
        excluded += _where_it_goes(against, bowl, bowls, named=True)
        preferred |= dict.fromkeys(liked)
    return Candidate("technique", technique.id, technique.name, suits, _once(excluded), tuple(preferred))


def _pair(
    ruled: Ruled, technique: Technique, blend: Blend, bowls: list[_Bowl], late: tuple[Clause, ...]
) -> Candidate:
    """A blend as one technique uses it: suits what both suit; what refuses the technique or one of its bowls
    refuses it."""
    both = tuple(
        one & other if one and other else one | other
        for one, other in zip(head_of(blend.suits), head_of(technique.suits), strict=True)
    )
    suits = with_placement(both, (technique.placement,))
    own_words = (*own_clauses("blend", blend.not_for), *own_clauses("technique", technique.not_for))
    excluded = [*own_words, *late, *unasked((technique.placement,))]
    preferred: dict[Clause, None] = {}
    for bowl in sorted(bowls, key=lambda each: each.blend.id != blend.id):
        own = bowl.blend.id == blend.id
        against, liked = ruled(bowl.made, (technique.placement,))
        if own:
            preferred |= dict.fromkeys(liked)
        else:
            against = (*own_clauses("blend", bowl.blend.not_for), *against)
            against = (*against, *not_meant(bowl.blend, technique.suits))
        excluded += _where_it_goes(against, bowl, bowls, named=not own)
    return Candidate("pair", blend.id, blend.name, suits, _once(excluded), tuple(preferred), technique.id)


def _once(clauses: list[Clause]) -> tuple[Clause, ...]:
    return tuple(dict.fromkeys(clauses))


def _where_it_goes(
    clauses: Iterable[Clause], bowl: _Bowl, bowls: list[_Bowl], *, named: bool
) -> Iterator[Clause]:
    """What is said of one bowl's blend, of the areas that the bowl goes to; what is said of an area to which
    another of the bowls goes is not about this one. ``named``: with the blend's name."""
    reached = 0
    for each in bowls:
        reached |= each.reach
    for clause in clauses:
        when = list(clause.when)
        area = when[AREA]
        if area & reached and not area & bowl.reach:
            continue
        if area & reached and bowl.reach & ~area:
            when[AREA] = area & bowl.reach
        elif area & reached or not area:
            when[AREA], when[REACH] = 0, 0 if bowl.reach == EVERY_AREA else bowl.reach
        yield clause._replace(when=tuple(when), of=bowl.blend.name if named else None)


def not_meant(blend: Blend, within: Facets) -> Iterator[Clause]:
    """The heads that a blend in a bowl is not meant for, as clauses: where ``within``, the facets of its
    technique, says no less than the blend, there is none."""
    technique = head_of(within)
    for place, suits in enumerate(head_of(blend.suits)):
        name = PLACES[place]
        said_by_both = technique[place] and not technique[place] & ~suits
        if not suits or said_by_both or place in (AREA, PLACEMENT, TARGET):
            continue
        every = COLOURED if place == HISTORY else (1 << len(DOMAINS[name])) - 1
        others = every & ~suits
        if others:
            words = " or ".join(map(str, values_of(name, suits)))
            because = f"It is meant for {name.replace('_', ' ')} {words}."
            yield Clause(head_with(**{name: others}), because, NOT_MEANT)


def unasked(placements: tuple[str, ...]) -> tuple[Clause, ...]:
    """What goes on the scalp alone is no answer to a head of which nobody said the area or the placement."""
    return (ON_SCALP_UNASKED,) if placements == ("on-scalp",) else ()


ON_SCALP_UNASKED = Clause(
    head_with(reach=UNASKED),
    "It goes on the scalp, which nobody asked for: say scalp regrowth where that is meant.",
    "usual: common practice, no published source",
)


def with_placement(head: Head, placements: tuple[str, ...]) -> Head:
    found = list(head)
    found[PLACEMENT] = bits_of("placement", placements)
    return tuple(found)


def own_clauses(kind: str, refusals: tuple[NotFor, ...] | tuple[TechniqueNotFor, ...]) -> tuple[Clause, ...]:
    return tuple(
        Clause(
            head_of(each.when),
            each.because,
            OWN,
            (kind, each.instead) if each.instead else None,
        )
        for each in refusals
    )


def ruled_out(book: Book, recipe: Blend | Technique, rules: tuple[Rule, ...]) -> list[tuple[int, Facets]]:
    """The heads that rules about hair keep from a blend or technique, each with the place of its rule.

    Of a technique: what keeps them from one of its bowls, where that goes to their area.
    """
    if not rules or (isinstance(recipe, Blend) and recipe.tones):
        return []
    if isinstance(recipe, Blend):
        placements = placements_of(book, recipe)
        return [*kept_by(rules, _made_as_written(book, recipe, placements), placements)]
    found = [
        (place, heads)
        for bowl in _bowls(book, recipe)
        for place, heads in kept_by(rules, bowl.made, (recipe.placement,))
        if not heads.area or bits_of("area", heads.area) & bowl.reach
    ]
    return [each for place, each in enumerate(found) if each not in found[:place]]
