"""How an answer is mixed and placed: its placements, developers and cautions, beside the match itself."""

from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer
from bowlbook.figures.candidate import Candidate
from bowlbook.figures.head import AREA, PLACEMENT, Head, bits_of, head_but, head_with, holds
from bowlbook.figures.lightening_bowl import placements_of, reach_of

ANY_HEAD = head_with()
"""A head of which nothing was said."""


class Use(NamedTuple):
    """What must stand beside a candidate's name before anybody mixes it.

    ``tones``: whether it is a toning bowl. ``placements``: in the order of the trade; none for a toning bowl,
    which goes on at the basin. ``developers``: those that its lightening bowls are written for (all of them
    where all tone), the strongest first. ``cautions``: its own, each once; a technique also carries those of
    the blends in its bowls. ``minutes``, ``check_every``: the longest processing time and how often it is
    checked, the first time after as long; None for a blend alone, whose technique says it.
    """

    tones: bool
    placements: tuple[str, ...]
    developers: tuple[Developer, ...]
    cautions: tuple[str, ...]
    minutes: Fraction | None = None
    check_every: Fraction | None = None


class UsedBowl(NamedTuple):
    """A bowl of a technique: the areas it goes to as bits, 0 where it tones; whether it holds the pair's own
    blend; what it is mixed with; its blend's cautions."""

    reach: int
    own: bool
    developer: Developer
    cautions: tuple[str, ...]


def use_of(book: Book, candidate: Candidate, head: Head = ANY_HEAD) -> Use:
    """How a candidate of `candidates_of` or `toners_of` is mixed and placed on a head, as it was judged.

    Of a technique only the bowls for the areas that are worked on count; of a blend only the placements that
    were asked for and that nothing refuses this head.
    """
    if candidate.kind == "blend":
        blend = book.blends[candidate.id]
        developers = (book.developer(blend.developer.product),)
        placements = () if blend.tones else _allowed(candidate, placements_of(book, blend), head)
        return Use(blend.tones, placements, developers, _once(blend.cautions))
    area = head[AREA]
    technique = book.techniques[candidate.within or candidate.id]
    every = bowls_in_use(book, candidate)
    used = [bowl for bowl in every if not bowl.reach or not area or bowl.reach & area]
    lightening = [bowl for bowl in used if bowl.reach]
    if candidate.kind == "pair":
        mixed = [bowl for bowl in lightening if bowl.own] or lightening
        cautions = _once(book.blends[candidate.id].cautions, technique.cautions)
    else:
        mixed = lightening
        cautions = _once(technique.cautions, *(bowl.cautions for bowl in used))
    tones, strongest = not any(bowl.reach for bowl in every), _strongest_first(mixed or every)
    minutes, check_every = technique.processing.minutes, technique.processing.check_every
    return Use(tones, (technique.placement,), strongest, cautions, minutes, check_every)


def bowls_in_use(book: Book, candidate: Candidate) -> list[UsedBowl]:
    """The bowls of a candidate's technique, in their order; none for a blend alone."""
    if candidate.kind == "blend":
        return []
    technique = book.techniques[candidate.within or candidate.id]
    found = []
    for bowl in technique.bowls:
        blend = book.blends[bowl.blend]
        reach = 0 if blend.tones else reach_of(book, technique, bowl)
        own = candidate.within is not None and blend.id == candidate.id
        developer = book.developer(bowl.developer or blend.developer.product)
        found.append(UsedBowl(reach, own, developer, blend.cautions))
    return found


def _allowed(candidate: Candidate, placements: tuple[str, ...], head: Head) -> tuple[str, ...]:
    """The placements that are left for a head; all of them where none is."""
    left = []
    for word in placements:
        bit = bits_of("placement", (word,))
        placed = head_but(head, PLACEMENT, bit)
        asked = not head[PLACEMENT] or head[PLACEMENT] & bit
        if asked and not any(holds(clause.when, placed) for clause in candidate.excluded_by):
            left.append(word)
    return tuple(left) or placements


def _strongest_first(bowls: list[UsedBowl]) -> tuple[Developer, ...]:
    found = {bowl.developer.id: bowl.developer for bowl in bowls}.values()
    return tuple(sorted(found, key=lambda each: (-each.volume, each.name.casefold(), each.id)))


def _once(*cautions: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for own in cautions for text in own))
