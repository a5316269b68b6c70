"""The public functions of the library: thin calls into the rooms, amounts and names as a person writes them.

Every figure is an exact `fractions.Fraction`; what is rounded says so. Nothing is written, not even a cache.
"""

from collections.abc import Iterable, Mapping
from functools import reduce
from operator import or_
from os import PathLike
from pathlib import Path
from typing import TypeVar

from bowlbook.book import read_book as reading
from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import FACET_WORDS, FACETS
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.product import Developer
from bowlbook.entries.technique import Technique
from bowlbook.figures import bowl, service
from bowlbook.figures import match as matching
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.candidate import candidates_of
from bowlbook.figures.head import DOMAINS, bits_of
from bowlbook.figures.match import Ranking
from bowlbook.figures.service import Service
from bowlbook.figures.unit import in_unit
from bowlbook.reading.amount import Mass, read_mass, read_span
from bowlbook.reading.finding import Finding, finding_text
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal

Named = TypeVar("Named", Blend, Technique)


class InvalidBook(ValueError):
    """A folder whose book has errors. ``findings`` lists them all, warnings too, sorted by file and line."""

    def __init__(self, findings: list[Finding]) -> None:
        errors = [finding_text(each) for each in findings if each.severity == "error"]
        super().__init__("\n".join(errors) or "There is no house.yml.")
        self.findings = findings


class UnknownName(LookupError):
    """An id, a facet or a word that does not exist here. The message names the nearest that does."""


def read_book(path: str | PathLike[str]) -> Book:
    """Read the book in a folder, such as ``recipes``: every entry by its id, linked and checked for form.

    No cache is read or written. Warnings do not matter here; `bowlbook check` lists them, with what the
    checks of the whole book find. Raises `InvalidBook` where an entry cannot be read or linked.

    >>> book = bowlbook.read_book("recipes")
    >>> book.blends["open-clay"].name
    'Soft clay, open air'
    """
    found = reading.read_book(Path(path))
    if found.book is None or any(each.severity == "error" for each in found.findings):
        raise InvalidBook(found.findings)
    return found.book


def mix(
    book: Book,
    blend: str | Blend,
    batch: str | Mass,
    *,
    step: str | Mass | None = None,
    developer: str | Developer | None = None,
) -> Bowl:
    """One bowl of a blend, weighed on a scale.

    ``batch``: the weight of all the lightener (or toner) together, as ``"0.5 oz"`` or ``"15 g"``; developer
    and additives are added on top. ``step``: the scale's step, in the same unit; the house's if left out.
    ``developer``: one of the blend's developers; its own if left out.

    The bowl's weights are in ``bowl.unit``, ``oz`` (avoirdupois) or ``g``. Of each pour, ``reading.exact`` is
    not rounded; ``reading.weigh`` is in whole steps, and those of the lighteners add up to the batch, itself
    rounded half up to a step (largest remainder, ties to the one listed first); ``scale_shows`` is the
    running total with the bowl tared once.
    ``bowl.worst_error`` is the largest relative error of that rounding, as a fraction of 1.

    Raises `UnknownName`; `ValueError` for an amount that cannot be read or that has another unit than the
    batch; `bowlbook.figures.bowl.CannotWeigh`, a `ValueError`, where a pour would read zero.

    >>> bowl = bowlbook.mix(book, "open-clay", "1 oz", step="0.05 oz")
    >>> [(pour.product.name, str(pour.scale_shows)) for pour in bowl.pours]
    [('Soft clay', '1'), ('Developer, 20 volume', '3')]
    """
    recipe = _entry(book.blends, "blend", blend)
    size = _mass(batch)
    unit = _unit(size)
    scale = book.house.scale_step.of(unit)
    if step is not None:
        given = _mass(step)
        if _unit(given) != unit:
            raise ValueError(f"The batch is in {unit} and the step in {given.unit}: give both in {unit}.")
        scale = in_unit(given, unit)
    if scale is None:
        raise ValueError(f"The house has no scale step for {unit}: give one.")
    return bowl.mix(book, recipe, unit, in_unit(size, unit), scale, _developer(book, recipe, developer))


def match(book: Book, head: Mapping[str, str | int | Iterable[str]]) -> Ranking:
    """Which blends and techniques suit a head of hair, best first, and which do not.

    ``head``: what is known of the hair and the wish, by facet: ``natural_level``, ``target_level`` and
    ``lift`` as ``6`` or ``"6-7"``, all others as one word or several, such as ``"coarse"`` or
    ``["fine", "medium"]``. The facets and words are those of ``suits`` in a recipe. What is left out is open.

    Each of ``verdicts`` has its ``candidate``, whether it ``suits``, the clauses that exclude it and those
    that must be asked about. The order is the same every time. ``head`` of the answer is None, and there are
    no verdicts, where the levels contradict one another. An answer is no permission: patch test, strand test
    and the maker's instructions come first.

    Raises `UnknownName` for a facet or word, `ValueError` for a level that cannot be read.

    >>> answer = bowlbook.match(book, {"natural_level": "6-7", "texture": "medium", "placement": "open-air"})
    >>> best = next(each for each in answer.verdicts if each.suits and each.candidate.kind == "pair")
    >>> best.candidate.id, best.candidate.within
    ('open-clay', 'open-air-sweep')
    """
    for facet in head:
        if facet not in FACETS:
            raise UnknownName(f'There is no facet "{facet}". {did_you_mean(facet, FACETS)}'.rstrip())
    bits = tuple(_bits(facet, head[facet]) if facet in head else 0 for facet in FACETS)
    return matching.match(candidates_of(book), bits)


def plan(
    book: Book,
    technique: str | Technique,
    *,
    length: str = "medium",
    density: str = "medium",
    unit: str | None = None,
) -> Service:
    """What a service takes: its bowls in order, each weighed out, its supplies, and its cost.

    ``length``: short, medium, long or extra-long; ``density``: thin, medium or thick, as the house has
    measured them. ``unit``: weigh in ``oz`` or ``g``; as the house does if left out.

    Weights are exact fractions in ``service.unit``; batches are sizes of the house. Costs are whole minor
    units of ``book.house.currency``, cents for CAD: added up exactly and rounded once, half up; None where a
    price is missing.

    Raises `UnknownName`; `bowlbook.figures.service.CannotPlan`, a `ValueError`, where the house has not
    measured such hair or the technique does not say what it needs.

    >>> service = bowlbook.plan(book, "open-air-sweep", length="long")
    >>> service.unit, [each.blend.name for each in service.bowls]
    ('oz', ['Soft clay, open air', 'Gentle lift for the hairline', 'Oat gloss'])
    """
    recipe = _entry(book.techniques, "technique", technique)
    lengths = {each.replace("_", "-"): each for each in LENGTHS}
    for what, word, known in (
        ("length", length, lengths),
        ("density", density, DENSITIES),
        ("unit", unit or "oz", ("oz", "g")),
    ):
        if word not in known:
            raise UnknownName(f'"{word}" is not a {what}. {did_you_mean(word, known)}')
    return service.plan(book, recipe, lengths[length], density, unit)


def _entry(entries: Mapping[str, Named], kind: str, named: str | Named) -> Named:
    if not isinstance(named, str):
        return named
    if named not in entries:
        raise UnknownName(f'There is no {kind} "{named}". {did_you_mean(named, entries)}'.rstrip())
    return entries[named]


def _developer(book: Book, blend: Blend, named: str | Developer | None) -> Developer | None:
    if named is None:
        return None
    wanted = named if isinstance(named, str) else named.id
    choices = {each.id: each for each in bowl.developers_of(book, blend)}
    if wanted not in choices:
        raise UnknownName(f'"{wanted}" is not a developer of {blend.name}. {did_you_mean(wanted, choices)}')
    return choices[wanted]


def _mass(amount: str | Mass) -> Mass:
    if isinstance(amount, Mass):
        return amount
    try:
        return read_mass(amount)
    except Refusal as refusal:
        raise ValueError(f"{refusal.message} {refusal.mend}") from refusal


def _unit(mass: Mass) -> str:
    """The unit that a bowl of this weight is weighed in: pounds are weighed in ounces, kilograms in grams."""
    return "oz" if mass.unit in ("oz", "lb") else "g"


def _bits(facet: str, values: str | int | Iterable[str]) -> int:
    """A facet's values as the bit set that matching uses."""
    texts = [str(values)] if isinstance(values, str | int) else list(values)
    if facet not in FACET_WORDS:
        top = int(DOMAINS[facet][-1])
        try:
            spans = [read_span(text, 1, top, facet.replace("_", " ")) for text in texts]
        except Refusal as refusal:
            raise ValueError(f"{refusal.message} {refusal.mend}") from refusal
        return reduce(or_, (bits_of(facet, span) for span in spans), 0)
    for text in texts:
        if text not in FACET_WORDS[facet]:
            raise UnknownName(f'"{text}" is not one of {facet}. {did_you_mean(text, FACET_WORDS[facet])}')
    return bits_of(facet, tuple(texts))
