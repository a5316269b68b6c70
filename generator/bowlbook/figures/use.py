"""How an answer is mixed and placed: its placements, developers and cautions, beside the match itself."""

from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer
from bowlbook.entries.technique import TechniqueBowl
from bowlbook.figures.candidate import Candidate, placements_of, reach_of


class Use(NamedTuple):
    """What must stand beside a candidate's name before anybody mixes it.

    ``tones``: whether it is a toning bowl. ``placements``: in the trade's order; none for a toning bowl, which
    goes on at the basin. ``developers``: those that its lightening bowls are written for (all of them where all
    tone), the strongest first. ``cautions``: the recipe's own, each once; a technique also carries those of the
    blends in its bowls. ``minutes``, ``check_every``: the longest processing time and how often it is checked,
    the first time after as long; None for a blend alone, whose technique says it.
    """

    tones: bool
    placements: tuple[str, ...]
    developers: tuple[Developer, ...]
    cautions: tuple[str, ...]
    minutes: Fraction | None = None
    check_every: Fraction | None = None


def use_of(book: Book, candidate: Candidate, area: int = 0) -> Use:
    """How a candidate of `candidates_of` or `toners_of` is mixed and placed.

    ``area``: the areas that are worked on, as bits; of a technique only the bowls that go there count.
    """
    if candidate.kind == "blend":
        blend = book.blends[candidate.id]
        developers = (book.developer(blend.developer.product),)
        placements = () if blend.tones else placements_of(book, blend)
        return Use(blend.tones, placements, developers, _once(blend.cautions))
    technique = book.techniques[candidate.within or candidate.id]
    every = [(bowl, book.blends[bowl.blend]) for bowl in technique.bowls]
    used = [
        (bowl, blend)
        for bowl, blend in every
        if blend.tones or not area or reach_of(technique, bowl, blend) & area
    ]
    lightening = tuple(bowl for bowl, blend in used if not blend.tones)
    if candidate.kind == "pair":
        own = book.blends[candidate.id]
        bowls = tuple(bowl for bowl in lightening if bowl.blend == own.id)
        cautions = _once(own.cautions, technique.cautions)
    else:
        bowls = lightening
        cautions = _once(technique.cautions, *(blend.cautions for _, blend in used))
    return Use(
        not any(not blend.tones for _, blend in every),
        (technique.placement,),
        _developers(book, bowls or lightening or technique.bowls),
        cautions,
        technique.processing.minutes,
        technique.processing.check_every,
    )


def _developers(book: Book, bowls: tuple[TechniqueBowl, ...]) -> tuple[Developer, ...]:
    """What bowls are mixed with: each its own developer, else its blend's; the strongest first."""
    ids = dict.fromkeys(bowl.developer or book.blends[bowl.blend].developer.product for bowl in bowls)
    found = [book.developer(entry_id) for entry_id in ids]
    return tuple(sorted(found, key=lambda each: (-each.volume, each.name.casefold(), each.id)))


def _once(*cautions: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for own in cautions for text in own))
