"""Recipes compiled for matching: bit sets of the heads they suit, clauses that exclude or prefer.

Blends, techniques, and blends within a technique become alike, so that one short evaluation (`match.py`, and
its twin on the phone) serves all three.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, partial
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import FACETS, PLACEMENTS, Facets, meet
from bowlbook.entries.product import STRENGTHS
from bowlbook.entries.rule import Rule, Traits
from bowlbook.entries.technique import Technique, TechniqueBowl, TechniqueNotFor
from bowlbook.figures.bowl import developers_of
from bowlbook.figures.head import PLACEMENT, USUAL, Head, bits_of, head_of, may_hold

CANDIDATE_KINDS = ("pair", "blend", "technique")
OWN = "the recipe itself"
"""The standing of a recipe's own refusals."""


class Clause(NamedTuple):
    """Heads for which something holds, why, on whose word, and the blend or technique to take instead.

    ``when`` holds a bit set for each facet, 0 where any will do.
    """

    when: Head
    because: str
    standing: str
    instead: tuple[str, str] | None = None
    source: str | None = None


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
    volumes: tuple[Fraction, ...]


_Kept = Callable[[tuple[_Made, ...], tuple[str, ...]], list[tuple[int, Facets]]]
"""The heads that a house's rules keep from a recipe: the same for recipes of the same make-up."""
_Ruled = Callable[[tuple[_Made, ...], tuple[str, ...]], tuple[tuple[Clause, ...], tuple[Clause, ...]]]
"""The clauses of a house's rules for a recipe: recipes of the same make-up share them."""


def candidates_of(book: Book) -> list[Candidate]:
    """Every blend that lightens, technique and blend-in-technique pair of a book, by name, id and kind.

    That order breaks ties when they are ranked.
    """
    ruled: _Ruled = cache(partial(_rules, book.house.rules))
    found = [_blend(book, ruled, blend) for blend in lightening(book)]
    for technique in book.techniques.values():
        ids = dict.fromkeys(bowl.blend for bowl in _lightening_bowls(book, technique))
        if not ids:
            continue
        found.append(_technique(book, ruled, technique))
        found += [
            _pair(book, ruled, technique, book.blends[blend_id])
            for blend_id in ids
            if meet(book.blends[blend_id].suits, technique.suits) is not None
        ]
    return sorted(found, key=_order)


def _order(each: Candidate) -> tuple[str, str, int, str]:
    return each.name.casefold(), each.id, CANDIDATE_KINDS.index(each.kind), each.within or ""


def candidate_of(book: Book, kind: str, entry_id: str) -> Candidate | None:
    """The blend or technique of this id as `candidates_of` has it; None for one that only tones."""
    ruled: _Ruled = partial(_rules, book.house.rules)
    if kind == "blend":
        blend = book.blends[entry_id]
        return None if blend.tones else _blend(book, ruled, blend)
    technique = book.techniques[entry_id]
    return _technique(book, ruled, technique) if _lightening_bowls(book, technique) else None


def lightening(book: Book) -> list[Blend]:
    """The blends that lighten: those that a head is matched with. A toning bowl follows a technique."""
    return [blend for blend in book.blends.values() if not blend.tones]


def _lightening_bowls(book: Book, technique: Technique) -> list[TechniqueBowl]:
    return [bowl for bowl in technique.bowls if not book.blends[bowl.blend].tones]


def placements_of(book: Book, blend: Blend) -> tuple[str, ...]:
    """Where a blend may go: where it is meant to, as far as every lightener in it is made for that."""
    allowed = set(blend.suits.placement or PLACEMENTS)
    for each in blend.lighteners:
        allowed &= set(book.lightener(each.product).placement)
    return tuple(word for word in PLACEMENTS if word in allowed)


def _made(book: Book, blend: Blend, placements: tuple[str, ...], volumes: Iterable[Fraction]) -> _Made:
    lighteners = [book.lightener(each.product) for each in blend.lighteners]
    return _Made(
        placements,
        max((each.strength for each in lighteners), key=STRENGTHS.index),
        frozenset(each.form for each in lighteners),
        frozenset(each.pigment for each in lighteners),
        tuple(volumes),
    )


def _blend(book: Book, ruled: _Ruled, blend: Blend) -> Candidate:
    placements = placements_of(book, blend)
    made = _made(book, blend, placements, (each.volume for each in developers_of(book, blend)))
    suits = _with_placement(head_of(blend.suits), placements)
    excluded, preferred = ruled((made,), placements)
    own = _own_clauses("blend", blend.not_for)
    return Candidate("blend", blend.id, blend.name, suits, (*own, *excluded), preferred)


def _technique(book: Book, ruled: _Ruled, technique: Technique) -> Candidate:
    made = _made_by(book, technique)
    suits = _with_placement(head_of(technique.suits), (technique.placement,))
    excluded, preferred = ruled(made, (technique.placement,))
    own = _own_clauses("technique", technique.not_for)
    return Candidate("technique", technique.id, technique.name, suits, (*own, *excluded), preferred)


def _pair(book: Book, ruled: _Ruled, technique: Technique, blend: Blend) -> Candidate:
    """A blend as one technique uses it: suits what both suit, and either refuses."""
    both = tuple(
        one & other if one and other else one | other
        for one, other in zip(head_of(blend.suits), head_of(technique.suits), strict=True)
    )
    suits = _with_placement(both, (technique.placement,))
    excluded, preferred = ruled((_made_in(book, technique, blend),), (technique.placement,))
    own = (*_own_clauses("blend", blend.not_for), *_own_clauses("technique", technique.not_for))
    return Candidate("pair", blend.id, blend.name, suits, (*own, *excluded), preferred, technique.id)


def _made_by(book: Book, technique: Technique) -> tuple[_Made, ...]:
    return tuple(
        _made_in(book, technique, book.blends[bowl.blend]) for bowl in _lightening_bowls(book, technique)
    )


def _made_in(book: Book, technique: Technique, blend: Blend) -> _Made:
    ids = [bowl.developer or blend.developer.product for bowl in technique.bowls if bowl.blend == blend.id]
    volumes = [book.developer(entry_id).volume for entry_id in dict.fromkeys(ids)]
    return _made(book, blend, (technique.placement,), volumes)


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
    rules: tuple[Rule, ...], made: tuple[_Made, ...], placements: tuple[str, ...]
) -> tuple[tuple[Clause, ...], tuple[Clause, ...]]:
    """The house's rules as clauses of one recipe: what excludes it, and what prefers it."""
    excluded: list[Clause] = []
    preferred = []
    for rule in rules:
        if rule.prefer is not None and any(_can(rule.prefer, each) for each in made):
            preferred.append(_clause(rule, head_of(rule.when)))
        excluded += [_clause(rule, head_of(heads)) for heads in _kept_from(rule, made, placements)]
    return tuple(excluded), tuple(preferred)


def ruled_out(book: Book, recipe: Blend | Technique, rules: tuple[Rule, ...]) -> list[tuple[int, Facets]]:
    """The heads that rules keep from a blend or technique, each with the place of its rule."""
    if not rules or (isinstance(recipe, Blend) and recipe.tones):
        return []
    if isinstance(recipe, Blend):
        placements = placements_of(book, recipe)
        made = _made(book, recipe, placements, (each.volume for each in developers_of(book, recipe)))
        return _kept_by(rules, (made,), placements)
    return _kept_by(rules, _made_by(book, recipe), (recipe.placement,))


def _kept_by(
    rules: tuple[Rule, ...], made: tuple[_Made, ...], placements: tuple[str, ...]
) -> list[tuple[int, Facets]]:
    """The heads that rules keep from a recipe, each with the place of its rule."""
    return [
        (place, heads) for place, rule in enumerate(rules) for heads in _kept_from(rule, made, placements)
    ]


def _kept_from(rule: Rule, made: tuple[_Made, ...], placements: tuple[str, ...]) -> list[Facets]:
    """The heads that an excluding or requiring rule keeps from a recipe."""
    if rule.exclude is not None:
        return _excluding(rule, rule.exclude, made, placements)
    if rule.require is not None:
        return _requiring(rule, rule.require, made, placements)
    return []


def _excluding(
    rule: Rule, traits: Traits, made: tuple[_Made, ...], placements: tuple[str, ...]
) -> list[Facets]:
    """``exclude``: outright where the recipe is always like that, else for those placements only."""
    if all(_always(traits, each) for each in made):
        return [rule.when]
    ways = [word for word in placements if word in traits.placement]
    rest = Traits(
        strength=traits.strength, form=traits.form, pigment=traits.pigment, developer=traits.developer
    )
    if ways and all(_always(rest, each) for each in made):
        return _for_placements(rule, ways)
    return []


def _requiring(
    rule: Rule, traits: Traits, made: tuple[_Made, ...], placements: tuple[str, ...]
) -> list[Facets]:
    """``require``: outright where the recipe cannot be like that, else for the placements left over."""
    if not any(_can(traits, each) for each in made):
        return [rule.when]
    ways = [word for word in placements if traits.placement and word not in traits.placement]
    return _for_placements(rule, ways) if ways else []


def _for_placements(rule: Rule, ways: list[str]) -> list[Facets]:
    met = meet(rule.when, Facets(placement=tuple(ways)))
    return [met] if met is not None else []


def _clause(rule: Rule, when: Head) -> Clause:
    instead = ("blend", rule.instead) if rule.instead else None
    return Clause(when, rule.because, rule.standing, instead, rule.source)


def _can(traits: Traits, made: _Made) -> bool:
    """Whether a recipe can be used so that it has all these traits."""
    return (
        (not traits.placement or bool(set(traits.placement) & set(made.placements)))
        and _fixed(traits, made)
        and (traits.developer is None or any(volume in traits.developer for volume in made.volumes))
    )


def _always(traits: Traits, made: _Made) -> bool:
    """Whether a recipe has all these traits however it is used."""
    return (
        (not traits.placement or set(made.placements) <= set(traits.placement))
        and _fixed(traits, made)
        and (traits.developer is None or all(volume in traits.developer for volume in made.volumes))
    )


def _fixed(traits: Traits, made: _Made) -> bool:
    return (
        (not traits.strength or made.strength in traits.strength)
        and (not traits.form or bool(made.forms & set(traits.form)))
        and (not traits.pigment or bool(made.pigments & set(traits.pigment)))
    )


assert FACETS[PLACEMENT] == "placement"
