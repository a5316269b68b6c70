"""The public functions of the library: thin calls into the rooms, amounts and names as a person writes them.

Every figure is an exact `fractions.Fraction`; what is rounded says so. Nothing is written, not even a cache.
"""

from collections.abc import Iterable, Mapping
from os import PathLike
from pathlib import Path
from typing import TypeVar

from bowlbook.book import read_book as reading
from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.product import Developer
from bowlbook.entries.technique import Technique
from bowlbook.figures import service
from bowlbook.figures.answer import Answer, answer_to
from bowlbook.figures.asked_bowl import UnknownDeveloper, asked_bowl
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.said_head import ASKED, UnknownWord, said_head
from bowlbook.figures.service import Service
from bowlbook.figures.verdict import practice_of
from bowlbook.reading.amount import Mass
from bowlbook.reading.finding import Finding, finding_text
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.read_amount import read_mass
from bowlbook.reading.refusal import Refusal
from bowlbook.wording.missing import no_such

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
    given = None if step is None else _mass(step)
    wanted = developer.id if isinstance(developer, Developer) else developer
    try:
        return asked_bowl(book, recipe, _mass(batch), given, wanted)
    except UnknownDeveloper as refusal:
        raise UnknownName(_sentence(refusal)) from refusal
    except Refusal as refusal:
        raise ValueError(_sentence(refusal)) from refusal


def match(book: Book, head: Mapping[str, str | int | Iterable[str]]) -> Answer:
    """Whether a head may be lightened today; then which blends and techniques suit it, and which do not.

    ``head``: what is known of the hair, the person and the wish. ``natural_level``, ``now`` (the level that
    coloured or lightened hair shows), ``target_level`` and ``lift`` as ``6`` or ``"6-7"``; so also ``weeks``
    since the last treatment, and ``volume``. All others as one word or several, as ``"coarse"`` or
    ``["fine", "medium"]``: the facets of ``suits`` in a recipe, ``wearing``, ``person`` and ``heat``. What is
    left out is not known. A lift of 0 is a wish for tone alone. Nothing of it is stored.

    Look at ``answer.verdict`` first: ``go``, ``with care``, ``tone only``, ``more than one visit``,
    ``test first`` or ``not today``. ``stops`` are its reasons, ``visits`` the plan, ``questions`` what to
    ask. ``suiting`` are the recipes that the verdict allows and that suit, best first; none that lightens
    with ``not today`` or ``tone only``. ``lightening`` and ``toning`` rank every recipe, also what does not
    suit, and are None where the verdict allows none. An answer is no permission: patch test, strand test and
    the maker's instructions come first.

    Raises `UnknownName` for a facet or word, `ValueError` for a number that cannot be read.

    >>> answer = bowlbook.match(book, {"natural_level": "6-7", "texture": "medium", "placement": "open-air"})
    >>> answer.verdict, [each.facet for each in answer.questions][:2]
    ('go', ['history', 'person'])
    >>> best = next(each for each in answer.suiting if each.candidate.kind == "pair")
    >>> best.candidate.id, best.candidate.within
    ('open-clay', 'open-air-sweep')
    """
    for facet in head:
        if facet not in ASKED:
            raise UnknownName(f'There is no facet "{facet}". {did_you_mean(facet, ASKED)}'.rstrip())
    try:
        said = said_head({facet: _texts(values) for facet, values in head.items()})
    except UnknownWord as refusal:
        raise UnknownName(_sentence(refusal)) from refusal
    except Refusal as refusal:
        raise ValueError(_sentence(refusal)) from refusal
    return answer_to(practice_of(book), said)


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
        raise UnknownName(no_such(kind, named, entries))
    return entries[named]


def _mass(amount: str | Mass) -> Mass:
    if isinstance(amount, Mass):
        return amount
    try:
        return read_mass(amount)
    except Refusal as refusal:
        raise ValueError(_sentence(refusal)) from refusal


def _sentence(refusal: Refusal) -> str:
    return f"{refusal.message} {refusal.mend}".rstrip()


def _texts(values: str | int | Iterable[str]) -> list[str]:
    return [str(values)] if isinstance(values, str | int) else [str(each) for each in values]
