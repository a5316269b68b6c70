"""Recipes compiled for matching: bit sets of the heads they suit, clauses that exclude or prefer.

Blends, techniques, and blends within a technique become alike, so that one short evaluation (`match.py`, and
its twin on the phone) serves all three.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import partial

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import meet
from bowlbook.entries.technique import Technique
from bowlbook.figures import lightening_bowl
from bowlbook.figures.head import PLACEMENT, USUAL, Head, bits_of, head_but, head_of, may_hold
from bowlbook.figures.own_clause import not_meant, own_clauses, unasked
from bowlbook.figures.ruling import Clause, Ruled, rule_clauses, rules_of
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
        # Derived once here, since every head is compared with every candidate. The fewer values of a facet
        # a recipe names, the closer it was meant for them: that decides between recipes that fit alike.
        named = tuple(
            (place, suits, bool(USUAL[place] and not suits & USUAL[place]), max(0, 10 - suits.bit_count()))
            for place, suits in enumerate(self.suits)
            if suits
        )
        object.__setattr__(self, "named_facets", named)
        may_meet = tuple(may_hold(clause.when, self.suits) for clause in self.excluded_by)
        object.__setattr__(self, "may_meet", may_meet)


def candidates_of(book: Book) -> list[Candidate]:
    """Every blend that lightens, technique and blend-in-technique pair of a book, by name, id and kind.

    That order breaks ties when they are ranked.
    """
    ruled = _ruled(book)
    found = [_blend(book, ruled, blend) for blend in lightening(book)]
    for technique in book.techniques.values():
        found += _with_pairs(book, ruled, technique)
    return candidates_in_order(found)


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


def candidates_in_order(found: Iterable[Candidate]) -> list[Candidate]:
    """Candidates in the order of `candidates_of`."""
    return sorted(
        found,
        key=lambda each: (each.name.casefold(), each.id, CANDIDATE_KINDS.index(each.kind), each.within or ""),
    )


def _ruled(book: Book) -> Ruled:
    return partial(rule_clauses, rules_of(book))


def _with_pairs(book: Book, ruled: Ruled, technique: Technique) -> list[Candidate]:
    """A technique and its pairs; nothing where all its bowls tone."""
    bowls = lightening_bowl.lightening_bowls(book, technique)
    if not bowls or retired_in(book, technique):
        return []
    late = too_long(book, technique)
    blends = {each.blend.id: each.blend for each in bowls}.values()
    pairs = [each for each in blends if meet(each.suits, technique.suits) is not None]
    return [_placed(ruled, technique, blend, bowls, late) for blend in (None, *pairs)]


def lightening(book: Book) -> list[Blend]:
    """The blends for which `is_lightening` holds."""
    return [blend for blend in book.blends.values() if is_lightening(book, blend)]


def is_lightening(book: Book, blend: Blend) -> bool:
    """Whether a head is matched with this blend. One that tones follows a technique.

    Not if it is retired, or anything in the bowl is.
    """
    return not blend.tones and not retired_in(book, blend)


def _blend(book: Book, ruled: Ruled, blend: Blend) -> Candidate:
    placements = lightening_bowl.placements_of(book, blend)
    suits = with_placement(head_of(blend.suits), placements)
    excluded, preferred = ruled(lightening_bowl.made_as_written(book, blend, placements), placements)
    own = own_clauses("blend", blend.not_for)
    against = (*own, *excluded, *unasked(placements))
    return Candidate("blend", blend.id, blend.name, suits, against, preferred)


def _placed(
    ruled: Ruled,
    technique: Technique,
    blend: Blend | None,
    bowls: list[lightening_bowl.LighteningBowl],
    late: tuple[Clause, ...],
) -> Candidate:
    """A technique, or a ``blend`` as it uses it: the pair suits what both suit.

    Refused by its own words, by whatever refuses one of its bowls, and where it takes too long (``late``).
    """
    suits = head_of(technique.suits)
    own_words = own_clauses("technique", technique.not_for)
    if blend is not None:
        own_words = (*own_clauses("blend", blend.not_for), *own_words)
        # 0 is any: where only one of the two names a facet, that decides.
        suits = tuple(
            one & other if one and other else one | other
            for one, other in zip(head_of(blend.suits), suits, strict=True)
        )
    suits = with_placement(suits, (technique.placement,))
    excluded = [*own_words, *late, *unasked((technique.placement,))]
    preferred: dict[Clause, None] = {}
    # A pair's own bowl comes first: of clauses about the same heads the first gives the reason.
    for bowl in sorted(bowls, key=lambda each: blend is None or each.blend.id != blend.id):
        own = blend is not None and bowl.blend.id == blend.id
        against, liked = ruled(bowl.made, (technique.placement,))
        if own or blend is None:
            preferred |= dict.fromkeys(liked)
        if not own:
            against = (*own_clauses("blend", bowl.blend.not_for), *against)
            against = (*against, *not_meant(bowl.blend, technique.suits))
        excluded += lightening_bowl.where_it_goes(against, bowl, bowls, named=not own)
    against, liked = tuple(dict.fromkeys(excluded)), tuple(preferred)
    if blend is None:
        return Candidate("technique", technique.id, technique.name, suits, against, liked)
    return Candidate("pair", blend.id, blend.name, suits, against, liked, technique.id)


def with_placement(head: Head, placements: tuple[str, ...]) -> Head:
    """A set of heads, of these placements alone."""
    return head_but(head, PLACEMENT, bits_of("placement", placements))
