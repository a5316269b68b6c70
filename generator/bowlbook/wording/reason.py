"""A verdict in plain sentences: why, why not, what to ask first, what instead, and how it is mixed."""

from functools import lru_cache
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.figures.head import PLACES, TARGET, Head, values_of
from bowlbook.figures.match import Verdict
from bowlbook.figures.pigment import UnderlyingPigment, underlying_at
from bowlbook.figures.ruling import Clause
from bowlbook.figures.shortlist import Shortlist
from bowlbook.figures.use import Use
from bowlbook.reading.amount import plain
from bowlbook.wording.developer import with_volume
from bowlbook.wording.listing import both, either


class Reasons(NamedTuple):
    """Sentences for one verdict. ``instead`` is the (kind, id) of what to take instead, where known."""

    why: tuple[str, ...]
    why_not: tuple[str, ...]
    ask: tuple[str, ...]
    instead: tuple[str, str] | None


PHRASES = {
    "natural_level": "natural level {}",
    "target_level": "target level {}",
    "lift": "{} levels of lift",
    "texture": "{} hair",
    "density": "{} density",
    "porosity": "{} porosity",
    "curl": "{} hair",
    "condition": "{} hair",
    "grey": "{} of it grey",
    "history": "{} hair",
    "area": "the {}",
    "placement": "{} placement",
    "tone": "a {} wish",
    "wearing": "{} in",
    "person": "{}",
    "weeks": "{} weeks since",
    "volume": "a wish for {} volume",
    "heat": "a wish for heat",
    "now": "level {} now",
    "wish": "{} wanted",
}
"""A facet's words within a sentence."""
ONE = {"lift": "{} level of lift", "weeks": "{} week since"}
"""The same for the number one, where that differs."""


@lru_cache(maxsize=4096)  # a page of answers says the same few sets hundreds of times
def phrase(facet: str, bits: int) -> str:
    """A facet's set as words: ``natural level 1–4``, ``fine or medium hair``."""
    values = values_of(facet, bits)
    if values == (1,):
        return ONE.get(facet, PHRASES[facet]).format(1)
    if all(isinstance(value, int) for value in values):
        return PHRASES[facet].format(runs([int(value) for value in values]))
    return PHRASES[facet].format(either(tuple(map(str, values))))


def toned_phrase(facet: str, bits: int) -> str:
    """The same for a toner, which meets the target level as a level that the hair has."""
    if facet != "target_level":
        return phrase(facet, bits)
    return f"hair lifted to level {runs([int(value) for value in values_of(facet, bits)])}"


def runs(numbers: list[int]) -> str:
    """Whole numbers in order, neighbours taken together: ``1–4, 7``."""
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in found)


@lru_cache(maxsize=4096)
def described(head: Head) -> str:
    """A head in one line, in the order of a consultation."""
    said = [phrase(name, bits) for name, bits in zip(PLACES, head, strict=True) if bits and name in PHRASES]
    return ", ".join(said) or "any head"


def reasons_of(verdict: Verdict, head: Head, answers: Shortlist | None = None) -> Reasons:
    """The sentences for a verdict on a head as it was judged. ``answers``: all that suits it; only what is
    among these is named instead."""
    suits = verdict.candidate.suits
    said = toned_phrase if verdict.candidate.tones else phrase
    why = []
    if verdict.hits:
        facts = [said(PLACES[place], head[place]) for place in verdict.hits]
        why.append(f"Meant for {both(facts)}.")
    why += [
        f"Good for part of it only: {said(PLACES[place], suits[place] & head[place])}."
        for place in verdict.parts
    ]
    why += [f"{clause.because}{standing(clause)}" for clause in verdict.preferred]
    why_not = [f"{refusal(clause)}{standing(clause)}" for clause in verdict.excluded]
    why_not += [
        f"Meant for {said(PLACES[place], suits[place])}, not {said(PLACES[place], head[place])}."
        for place in verdict.misses
    ]
    # Placement is left out: the recipe decides it, not the hair.
    unsaid = [
        said(facet, bits)
        for facet, bits, asked in zip(PLACES, suits, head, strict=True)
        if bits and not asked and facet != "placement"
    ]
    ask = [f"Only for {both(unsaid)}."] if unsaid else []
    clauses = [each for each in verdict.ask if not asked_once(each)]
    ask += [f"Not for {described(each.when)}: {refusal(each)}" for each in clauses]
    # Only clauses that exclude name a replacement; a recipe that merely misses has none.
    named = [clause.instead for clause in verdict.excluded if clause.instead]
    instead = next((each for each in named if answers and answers.answers(*each)), None)
    return Reasons(tuple(why), tuple(dict.fromkeys(why_not)), tuple(dict.fromkeys(ask)), instead)


def asked_once(clause: Clause) -> bool:
    """Whether a clause is a usual one, which is asked about once for a head and not for each recipe."""
    return clause.standing.startswith("usual")


BOWL_OF = "Its bowl of {}: "
"""What a refusal begins with where it is a technique's, for one of its bowls."""


def refusal(clause: Clause) -> str:
    """Why a clause refuses, with the bowl of a technique that it concerns."""
    return BOWL_OF.replace("{}", clause.of, 1) + clause.because if clause.of else clause.because


def standing(clause: Clause) -> str:
    """On whose word a rule stands, for the end of its sentence."""
    return f" ({clause.standing})"


def pigment_sentence(found: UnderlyingPigment) -> str:
    """What a level shows before toning, and what neutralises it."""
    return (
        f"Lifted to level {found.level} it shows {found.shows}; a {found.countered_by} tone neutralises it "
        "(common practice)."
    )


def pigment_sentences(head: Head) -> list[tuple[int, str]]:
    """What the levels lifted to will show, where known: each level and its sentence, at most three."""
    levels = [int(level) for level in values_of("target_level", head[TARGET])]
    return [(level, pigment_sentence(underlying_at(level))) for level in levels[:3]]


def label(book: Book, verdict: Verdict) -> str:
    """A candidate's name, with its technique for a pair."""
    if verdict.candidate.within is None:
        return verdict.candidate.name
    return f"{verdict.candidate.name}, placed with {book.techniques[verdict.candidate.within].name}"


def mixed_with(use: Use) -> str:
    """What an answer is mixed with, where it goes and how long: ``With Developer, 20 volume; foil. At most 45
    minutes, first check after 5.``"""
    where = either(use.placements) or "at the basin"
    mixed = f"With {' or '.join(map(with_volume, use.developers))}; {where}."
    if use.minutes is None or use.check_every is None:
        return mixed
    return f"{mixed} At most {plain(use.minutes)} minutes, first check after {plain(use.check_every)}."
