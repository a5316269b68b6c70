"""How an answer is mixed and placed: its placements, developers and cautions, beside the match itself."""

from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer
from bowlbook.entries.technique import TechniqueBowl
from bowlbook.figures.candidate import Candidate, placements_of


class Use(NamedTuple):
    """What must stand beside a candidate's name before anybody mixes it.

    ``tones``: whether it is a toning bowl. ``placements``: in the trade's order. ``developers``: those that
    its lightening bowls are written for (all of them where all tone), the strongest first. ``cautions``: the
    recipe's own, each once; a technique also carries those of the blends in its bowls.
    """

    tones: bool
    placements: tuple[str, ...]
    developers: tuple[Developer, ...]
    cautions: tuple[str, ...]


def use_of(book: Book, candidate: Candidate) -> Use:
    """How a candidate of `candidates_of` is mixed and placed."""
    if candidate.kind == "blend":
        blend = book.blends[candidate.id]
        developers = (book.developer(blend.developer.product),)
        return Use(blend.tones, placements_of(book, blend), developers, _once(blend.cautions))
    technique = book.techniques[candidate.within or candidate.id]
    if candidate.kind == "pair":
        blend = book.blends[candidate.id]
        bowls = tuple(bowl for bowl in technique.bowls if bowl.blend == blend.id)
        cautions = _once(blend.cautions, technique.cautions)
        return Use(blend.tones, (technique.placement,), _developers(book, bowls), cautions)
    blends = [book.blends[bowl.blend] for bowl in technique.bowls]
    lightening = tuple(bowl for bowl in technique.bowls if not book.blends[bowl.blend].tones)
    return Use(
        not lightening,
        (technique.placement,),
        _developers(book, lightening or technique.bowls),
        _once(technique.cautions, *(blend.cautions for blend in blends)),
    )


def _developers(book: Book, bowls: tuple[TechniqueBowl, ...]) -> tuple[Developer, ...]:
    """What bowls are mixed with: each its own developer, else its blend's; the strongest first."""
    ids = dict.fromkeys(bowl.developer or book.blends[bowl.blend].developer.product for bowl in bowls)
    found = [book.developer(entry_id) for entry_id in ids]
    return tuple(sorted(found, key=lambda each: (-each.volume, each.name.casefold(), each.id)))


def _once(*cautions: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for own in cautions for text in own))
