"""Recipes compiled for matching: bit sets of the heads they suit, clauses that exclude or prefer.

Blends, techniques, and blends within a technique become alike, so that one short evaluation (`match.py`, and
its twin on the phone) serves all three.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache, partial
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.circumstances import Circumstances
from bowlbook.entries.facets import PLACEMENTS, Facets, meet
from bowlbook.entries.product import STRENGTHS
from bowlbook.entries.rule import Rule, Traits
from bowlbook.entries.technique import Technique, TechniqueBowl, TechniqueNotFor
from bowlbook.entries.usual import usual
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
    USUAL,
    Head,
    bits_of,
    head_of,
    head_with,
    may_hold,
    values_of,
)
from bowlbook.figures.pigment import neutralises, underlying_at
from bowlbook.figures.stop import standing_of

CANDIDATE_KINDS = ("pair", "blend", "technique")
OWN = "the recipe itself"
"""The standing of a recipe's own refusals."""
NOT_MEANT = "what the recipe is meant for"
"""The standing of what follows from the hair that the blend in one bowl of a technique is meant for."""


class Clause(NamedTuple):
    """Heads for which something holds, why, on whose word, and the blend or technique to take instead.

    ``when`` holds a bit set for each facet, 0 where any will do. ``of``: the blend in a bowl of a technique
    that this is about, where it is about one bowl of several.
    """

    when: Head
    because: str
    standing: str
    instead: tuple[str, str] | None = None
    of: str | None = None


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
            (place, suits, bool(USUAL[place] and not suits & USUAL[place]), 10 - suits.bit_count())
            for place, suits in enumerate(self.suits)
            if suits
        )
        object.__setattr__(self, "named_facets", named)
        may_meet = tuple(may_hold(clause.when, self.suits) for clause in self.excluded_by)
        object.__setattr__(self, "may_meet", may_meet)


class _Made(NamedTuple):
    """What a recipe is, as rules look at it."""

    placements: tuple[str, ...]
    strength: str
    forms: frozenset[str]
    pigments: frozenset[str]
    volume: Fraction


class _Bowl(NamedTuple):
    """A lightening bowl of a technique: its blend, what it is made like, the areas it goes to."""

    blend: Blend
    made: _Made
    reach: int


_Ruled = Callable[[_Made, tuple[str, ...]], tuple[tuple[Clause, ...], tuple[Clause, ...]]]
"""The clauses of rules for what is made like this: recipes that are made alike share them."""


def rules_of(book: Book) -> tuple[Rule, ...]:
    """The usual rules, which no house removes, and then the house's."""
    return (*usual().rules, *book.house.rules)


def candidates_of(book: Book) -> list[Candidate]:
    """Every blend that lightens, technique and blend-in-technique pair of a book, by name, id and kind.

    That order breaks ties when they are ranked.
    """
    ruled: _Ruled = cache(partial(_rules, rules_of(book)))
    found = [_blend(book, ruled, blend) for blend in lightening(book)]
    for technique in book.techniques.values():
        bowls = _bowls(book, technique)
        if not bowls:
            continue
        found.append(_technique(ruled, technique, bowls))
        found += [
            _pair(ruled, technique, blend, bowls)
            for blend in {each.blend.id: each.blend for each in bowls}.values()
            if meet(blend.suits, technique.suits) is not None
        ]
    return _in_order(found)


def _in_order(found: list[Candidate]) -> list[Candidate]:
    return sorted(
        found,
        key=lambda each: (each.name.casefold(), each.id, CANDIDATE_KINDS.index(each.kind), each.within or ""),
    )


def toners_of(book: Book) -> list[Candidate]:
    """Every blend that tones, and every technique whose bowls all tone, in the order of `candidates_of`.

    They are matched with the level that the hair has when it is toned, as its target level. What neutralises
    the pigment of a level comes first for a wish that is not warm. House rules are about lightening: what a
    toner must not be used for is its own to say.
    """
    found = [
        Candidate(
            "blend",
            blend.id,
            blend.name,
            _without(head_of(blend.suits), PLACEMENT),
            _own_clauses("blend", blend.not_for),
            _neutralising(book, blend),
            tones=True,
        )
        for blend in book.blends.values()
        if blend.tones
    ]
    found += [
        Candidate(
            "technique",
            each.id,
            each.name,
            _with_placement(head_of(each.suits), (each.placement,)),
            (*_own_clauses("technique", each.not_for), *_toning_bowls(book, each)),
            (),
            tones=True,
        )
        for each in book.techniques.values()
        if all(book.blends[bowl.blend].tones for bowl in each.bowls)
    ]
    return _in_order(found)


def _toning_bowls(book: Book, technique: Technique) -> Iterator[Clause]:
    """What refuses a bowl of a technique that only tones."""
    for blend in {bowl.blend: book.blends[bowl.blend] for bowl in technique.bowls}.values():
        for clause in (*_own_clauses("blend", blend.not_for), *_not_meant(blend, technique.suits)):
            yield clause._replace(of=blend.name)


def _neutralising(book: Book, blend: Blend) -> tuple[Clause, ...]:
    """For each level whose underlying pigment a toning bowl takes away: that it does."""
    bases = [book.base(each.product) for each in blend.toners]
    pigments = {each.pigment for each in bases}
    wish = bits_of("tone", ("neutral", "cool"))
    return tuple(
        Clause(
            head_with(target_level=1 << level - 1, tone=wish),
            f"Its {pigment} neutralises the {underlying_at(level).shows} of level {level}.",
            "common practice",
        )
        for pigment in sorted(filter(None, pigments))
        for level in range(1, 11)
        if neutralises(pigment, level)
    )


def candidate_of(book: Book, kind: str, entry_id: str) -> Candidate | None:
    """The blend or technique of this id as `candidates_of` has it; None for one that only tones."""
    ruled: _Ruled = partial(_rules, rules_of(book))
    if kind == "blend":
        blend = book.blends[entry_id]
        return None if blend.tones else _blend(book, ruled, blend)
    technique = book.techniques[entry_id]
    bowls = _bowls(book, technique)
    return _technique(ruled, technique, bowls) if bowls else None


def lightening(book: Book) -> list[Blend]:
    """The blends that lighten: those that a head is matched with. A toning bowl follows a technique."""
    return [blend for blend in book.blends.values() if not blend.tones]


def _bowls(book: Book, technique: Technique) -> list[_Bowl]:
    """The lightening bowls of a technique, alike ones once."""
    found = []
    for bowl in technique.bowls:
        blend = book.blends[bowl.blend]
        if not blend.tones:
            volume = book.developer(bowl.developer or blend.developer.product).volume
            made = _made(book, blend, (technique.placement,), volume)
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


def _made(book: Book, blend: Blend, placements: tuple[str, ...], volume: Fraction) -> _Made:
    lighteners = [book.lightener(each.product) for each in blend.lighteners]
    return _Made(
        placements,
        max((each.strength for each in lighteners), key=STRENGTHS.index),
        frozenset(each.form for each in lighteners),
        frozenset(each.pigment for each in lighteners),
        volume,
    )


def _made_as_written(book: Book, blend: Blend, placements: tuple[str, ...]) -> _Made:
    """A blend with the developer that it is written for: that is what an answer says."""
    return _made(book, blend, placements, book.developer(blend.developer.product).volume)


def _blend(book: Book, ruled: _Ruled, blend: Blend) -> Candidate:
    placements = placements_of(book, blend)
    suits = _with_placement(head_of(blend.suits), placements)
    excluded, preferred = ruled(_made_as_written(book, blend, placements), placements)
    own = _own_clauses("blend", blend.not_for)
    return Candidate("blend", blend.id, blend.name, suits, (*own, *excluded), preferred)


def _technique(ruled: _Ruled, technique: Technique, bowls: list[_Bowl]) -> Candidate:
    """A technique: refused by its own words, and by whatever refuses one of its bowls."""
    suits = _with_placement(head_of(technique.suits), (technique.placement,))
    excluded = [*_own_clauses("technique", technique.not_for)]
    preferred: dict[Clause, None] = {}
    for bowl in bowls:
        against, liked = ruled(bowl.made, (technique.placement,))
        against = (*_own_clauses("blend", bowl.blend.not_for), *against)
        against = (*against, *_not_meant(bowl.blend, technique.suits))
        excluded += _where_it_goes(against, bowl, bowls, named=True)
        preferred |= dict.fromkeys(liked)
    return Candidate("technique", technique.id, technique.name, suits, _once(excluded), tuple(preferred))


def _pair(ruled: _Ruled, technique: Technique, blend: Blend, bowls: list[_Bowl]) -> Candidate:
    """A blend as one technique uses it: suits what both suit; what refuses one of the bowls refuses it."""
    both = tuple(
        one & other if one and other else one | other
        for one, other in zip(head_of(blend.suits), head_of(technique.suits), strict=True)
    )
    suits = _with_placement(both, (technique.placement,))
    excluded = [*_own_clauses("blend", blend.not_for), *_own_clauses("technique", technique.not_for)]
    preferred: dict[Clause, None] = {}
    for bowl in sorted(bowls, key=lambda each: each.blend.id != blend.id):
        own = bowl.blend.id == blend.id
        against, liked = ruled(bowl.made, (technique.placement,))
        if own:
            preferred |= dict.fromkeys(liked)
        else:
            against = (*_own_clauses("blend", bowl.blend.not_for), *against)
            against = (*against, *_not_meant(bowl.blend, technique.suits))
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


def _not_meant(blend: Blend, within: Facets) -> Iterator[Clause]:
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


def _without(head: Head, place: int) -> Head:
    return (*head[:place], 0, *head[place + 1 :])


def _with_placement(head: Head, placements: tuple[str, ...]) -> Head:
    found = list(head)
    found[PLACEMENT] = bits_of("placement", placements)
    return tuple(found)


def _own_clauses(kind: str, refusals: tuple[NotFor, ...] | tuple[TechniqueNotFor, ...]) -> tuple[Clause, ...]:
    return tuple(
        Clause(
            head_of(each.when),
            each.because,
            OWN,
            (kind, each.instead) if each.instead else None,
        )
        for each in refusals
    )


def _rules(
    rules: tuple[Rule, ...], made: _Made, placements: tuple[str, ...]
) -> tuple[tuple[Clause, ...], tuple[Clause, ...]]:
    """Rules as clauses of what is made like this: what excludes it, and what prefers it."""
    excluded: list[Clause] = []
    preferred = []
    for rule in rules:
        if rule.prefer is not None and _can(rule.prefer, made):
            preferred.append(_clause(rule, head_of(rule.when)))
        excluded += [_clause(rule, head_of(heads)) for heads in _kept_from(rule, made, placements)]
    return tuple(excluded), tuple(preferred)


def ruled_out(book: Book, recipe: Blend | Technique, rules: tuple[Rule, ...]) -> list[tuple[int, Facets]]:
    """The heads that rules about hair keep from a blend or technique, each with the place of its rule.

    Of a technique: what keeps them from one of its bowls, where that goes to their area.
    """
    if not rules or (isinstance(recipe, Blend) and recipe.tones):
        return []
    if isinstance(recipe, Blend):
        placements = placements_of(book, recipe)
        return [*_kept_by(rules, _made_as_written(book, recipe, placements), placements)]
    found = [
        (place, heads)
        for bowl in _bowls(book, recipe)
        for place, heads in _kept_by(rules, bowl.made, (recipe.placement,))
        if not heads.area or bits_of("area", heads.area) & bowl.reach
    ]
    return [each for place, each in enumerate(found) if each not in found[:place]]


def _kept_by(
    rules: tuple[Rule, ...], made: _Made, placements: tuple[str, ...]
) -> list[tuple[int, Circumstances]]:
    """The heads that rules about hair keep from a recipe, each with the place of its rule."""
    return [
        (place, heads)
        for place, rule in enumerate(rules)
        if rule.when.of_hair_alone
        for heads in _kept_from(rule, made, placements)
    ]


def _kept_from(rule: Rule, made: _Made, placements: tuple[str, ...]) -> list[Circumstances]:
    """The heads that an excluding or requiring rule keeps from a recipe."""
    if rule.exclude is not None:
        return _excluding(rule, rule.exclude, made, placements)
    if rule.require is not None:
        return _requiring(rule, rule.require, made, placements)
    return []


def _excluding(rule: Rule, traits: Traits, made: _Made, placements: tuple[str, ...]) -> list[Circumstances]:
    """``exclude``: outright where the recipe is always like that, else for those placements only."""
    if _always(traits, made):
        return [rule.when]
    ways = tuple(word for word in placements if word in traits.placement)
    return _for_placements(rule, ways) if ways and _fixed(traits, made) else []


def _requiring(rule: Rule, traits: Traits, made: _Made, placements: tuple[str, ...]) -> list[Circumstances]:
    """``require``: outright where the recipe cannot be like that, else for the placements left over."""
    if not _can(traits, made):
        return [rule.when]
    ways = tuple(word for word in placements if traits.placement and word not in traits.placement)
    return _for_placements(rule, ways) if ways else []


def _for_placements(rule: Rule, ways: tuple[str, ...]) -> list[Circumstances]:
    own = rule.when.placement
    met = tuple(word for word in ways if not own or word in own)
    return [replace(rule.when, placement=met)] if met else []


def _clause(rule: Rule, when: Head) -> Clause:
    instead = ("blend", rule.instead) if rule.instead else None
    return Clause(when, rule.because, standing_of(rule), instead)


def _can(traits: Traits, made: _Made) -> bool:
    """Whether a recipe can be placed so that it has all these traits."""
    return (not traits.placement or bool(set(traits.placement) & set(made.placements))) and _fixed(
        traits, made
    )


def _always(traits: Traits, made: _Made) -> bool:
    """Whether a recipe has all these traits however it is placed."""
    return (not traits.placement or set(made.placements) <= set(traits.placement)) and _fixed(traits, made)


def _fixed(traits: Traits, made: _Made) -> bool:
    return (
        (not traits.strength or made.strength in traits.strength)
        and (not traits.form or bool(made.forms & set(traits.form)))
        and (not traits.pigment or bool(made.pigments & set(traits.pigment)))
        and (traits.developer is None or made.volume in traits.developer)
    )
