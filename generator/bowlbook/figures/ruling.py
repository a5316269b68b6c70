"""Rules as clauses: what the usual rules and the house's exclude and prefer, by a recipe's make-up."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache, lru_cache
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.circumstances import Circumstances
from bowlbook.entries.product import STRENGTHS
from bowlbook.entries.rule import Rule, Traits
from bowlbook.entries.usual import usual
from bowlbook.figures.head import Head, head_of
from bowlbook.figures.stop import standing_of

OWN = "the recipe itself"
"""The standing of a recipe's own refusals."""
NOT_MEANT = "what the recipe is meant for"
"""The standing of what follows from the hair that the blend in one bowl of a technique is meant for."""


class Clause(NamedTuple):
    """Heads for which something holds, why, on whose word, and the blend or technique to take instead.

    ``when`` holds a bit set for each facet, 0 where any will do. ``of``: the name of the blend
    in the one bowl of a technique that it concerns, where it does not concern all of them.
    """

    when: Head
    because: str
    standing: str
    instead: tuple[str, str] | None = None
    of: str | None = None

    def __reduce__(self) -> tuple[object, ...]:
        """Loaded again, equal clauses are one: most recipes of a house have the same ones."""
        return _one_clause, tuple(self)


@lru_cache(maxsize=1 << 14)
def _one_clause(
    when: Head, because: str, standing: str, instead: tuple[str, str] | None, of: str | None
) -> Clause:
    return Clause(when, because, standing, instead, of)


class MakeUp(NamedTuple):
    """What a recipe is, as rules look at it."""

    placements: tuple[str, ...]
    strength: str
    forms: frozenset[str]
    pigments: frozenset[str]
    volume: Fraction


Ruled = Callable[[MakeUp, tuple[str, ...]], tuple[tuple[Clause, ...], tuple[Clause, ...]]]
"""The clauses of rules for what is made like this: recipes that are made alike share them."""


def rules_of(book: Book) -> tuple[Rule, ...]:
    """What excludes, requires or prefers recipes: the usual rules, then the house's."""
    return (*_usual_rules(), *_about_recipes(book.house.rules))


@cache
def _usual_rules() -> tuple[Rule, ...]:
    return _about_recipes(usual().rules)


def _about_recipes(rules: tuple[Rule, ...]) -> tuple[Rule, ...]:
    return tuple([each for each in rules if each.exclude or each.require or each.prefer])


def make_up_of(book: Book, blend: Blend, placements: tuple[str, ...], volume: Fraction) -> MakeUp:
    lighteners = [book.lightener(each.product) for each in blend.lighteners]
    strength = max([each.strength for each in lighteners], key=STRENGTHS.index)
    forms = frozenset([each.form for each in lighteners])
    pigments = frozenset([each.pigment for each in lighteners])
    return MakeUp(placements, strength, forms, pigments, volume)


@lru_cache(maxsize=1024)  # many recipes are made alike
def rule_clauses(
    rules: tuple[Rule, ...], made: MakeUp, placements: tuple[str, ...]
) -> tuple[tuple[Clause, ...], tuple[Clause, ...]]:
    """Rules as clauses of what is made like this: what excludes it, and what prefers it."""
    excluded: list[Clause] = []
    preferred = []
    for rule in rules:
        if rule.prefer is not None and _can(rule.prefer, made):
            preferred.append(_clause(rule, head_of(rule.when)))
        excluded += [_clause(rule, head_of(heads)) for heads in _kept_from(rule, made, placements)]
    return tuple(excluded), tuple(preferred)


@lru_cache(maxsize=1024)  # as for `rule_clauses`
def kept_by(
    rules: tuple[Rule, ...], made: MakeUp, placements: tuple[str, ...]
) -> tuple[tuple[int, Circumstances], ...]:
    """The heads that rules about hair keep from a recipe, each with the place of its rule."""
    return tuple(
        (place, heads)
        for place, rule in enumerate(rules)
        if rule.when.of_hair_alone
        for heads in _kept_from(rule, made, placements)
    )


def _kept_from(rule: Rule, made: MakeUp, placements: tuple[str, ...]) -> list[Circumstances]:
    """The heads that an excluding or requiring rule keeps from a recipe."""
    if rule.exclude is not None:
        return _excluding(rule, rule.exclude, made, placements)
    if rule.require is not None:
        return _requiring(rule, rule.require, made, placements)
    return []


def _excluding(rule: Rule, traits: Traits, made: MakeUp, placements: tuple[str, ...]) -> list[Circumstances]:
    """``exclude``: outright where the recipe is always like that, else for those placements only."""
    if _always(traits, made):
        return [rule.when]
    ways = tuple(word for word in placements if word in traits.placement)
    return _for_placements(rule, ways) if ways and _fixed(traits, made) else []


def _requiring(rule: Rule, traits: Traits, made: MakeUp, placements: tuple[str, ...]) -> list[Circumstances]:
    """``require``: outright where the recipe cannot be like that, else for the placements left over."""
    if not _can(traits, made):
        return [rule.when]
    ways = tuple(word for word in placements if traits.placement and word not in traits.placement)
    return _for_placements(rule, ways) if ways else []


def placement_clauses(rules: tuple[Rule, ...], placement: str) -> tuple[Clause, ...]:
    """The heads that rules keep from a placement, whatever is in the bowl: those that name nothing else."""
    found = []
    for rule in rules:
        for traits, kept in ((rule.exclude, True), (rule.require, False)):
            alone = traits is not None and traits == Traits(placement=traits.placement)
            if traits and alone and traits.placement and (placement in traits.placement) is kept:
                found.append(_clause(rule, head_of(rule.when)))
    return tuple(found)


def _for_placements(rule: Rule, ways: tuple[str, ...]) -> list[Circumstances]:
    own = rule.when.placement
    met = tuple(word for word in ways if not own or word in own)
    return [replace(rule.when, placement=met)] if met else []


def _clause(rule: Rule, when: Head) -> Clause:
    instead = ("blend", rule.instead) if rule.instead else None
    return Clause(when, rule.because, standing_of(rule), instead)


def _can(traits: Traits, made: MakeUp) -> bool:
    """Whether a recipe can be placed so that it has all these traits."""
    return (not traits.placement or bool(set(traits.placement) & set(made.placements))) and _fixed(
        traits, made
    )


def _always(traits: Traits, made: MakeUp) -> bool:
    """Whether a recipe has all these traits however it is placed."""
    return (not traits.placement or set(made.placements) <= set(traits.placement)) and _fixed(traits, made)


def _fixed(traits: Traits, made: MakeUp) -> bool:
    return (
        (not traits.strength or made.strength in traits.strength)
        and (not traits.form or bool(made.forms & set(traits.form)))
        and (not traits.pigment or bool(made.pigments & set(traits.pigment)))
        and (traits.developer is None or made.volume in traits.developer)
    )
