"""The book compiled for Pick by hair: plain data that a script evaluates on the phone.

One truth: the bit sets, stops and clauses are those of `bowlbook.figures`, the words those of
`bowlbook.wording`. Strings are listed once, in ``texts``; everything else points at them.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from bowlbook.figures import head as bits
from bowlbook.figures.answer import ASKED
from bowlbook.figures.candidate import CANDIDATE_KINDS, Candidate
from bowlbook.figures.head import AT_ONCE, DOMAINS, PLACES, USUAL, Head
from bowlbook.figures.pigment import UNDERLYING
from bowlbook.figures.ruling import Clause
from bowlbook.figures.stop import EFFECTS, Stop
from bowlbook.figures.verdict import VERDICTS, Practice
from bowlbook.pages.address import entry_address
from bowlbook.pages.pick_recipe import FirstBowl, Mix, Shown
from bowlbook.wording.amount import plain_number
from bowlbook.wording.reason import BOWL_OF, ONE, PHRASES, asked_once, pigment_sentence, standing
from bowlbook.wording.stop_list import NARROWED
from bowlbook.wording.verdict import PHONE_WORDS, QUESTIONS

BITS = (
    *("COLOURED", "VIRGIN", "LIGHTENED", "REGROWTH", "EVERY_AREA", "UNASKED"),
    *("LIGHTER", "NO_LIFT", "DEEPER"),
)
"""Bit sets of `bowlbook.figures.head` that the evaluation names."""


class _StringTable:
    """Numbers strings in the order in which they are first used."""

    def __init__(self) -> None:
        self.all: list[str] = []
        self._places: dict[str, int] = {}

    def place(self, text: str | None) -> int:
        """The number of a string; -1 for none."""
        if text is None:
            return -1
        if text not in self._places:
            self._places[text] = len(self.all)
            self.all.append(text)
        return self._places[text]

    def all_of(self, texts: Iterable[str]) -> list[int]:
        """The numbers of some strings."""
        return [self.place(text) for text in texts]


def pick_data(practice: Practice, recipes: Sequence[Shown], bowls: Mapping[str, FirstBowl]) -> dict[str, Any]:
    """The data of Pick by hair for a book.

    ``practice``: the book's stops and recipes. ``recipes``: what `shown_from` gives for each blend, then for
    each technique. ``bowls``: each lightening blend's `first_bowl`.

    ``stops``: facet sets, effect, what to do, why, on whose word, 1 where toning stays allowed, levels and
    weeks of a visit. ``visit``: levels and weeks of the house. ``volumes``: those of its developers, as bits.
    ``clauses``: facet sets, why, on whose word, what instead and its kind, 1 where it is asked of every head
    once, the blend's name where it is a technique's for one of its bowls.
    ``candidates`` and ``toners``: see `_row`. A set of heads is a list of alternating facet numbers and
    bit sets. ``developers``: id, name with volume, volume; strongest first. ``bowls``: for each blend, by
    the number of its id, its smallest batch, and for each pour the product's name, -1 for the developer,
    and what the scale shows.
    """
    texts = _StringTable()
    clauses: dict[Clause, int] = {}
    mixes = _developers(recipes)
    developers = {each.id: number for number, each in enumerate(mixes)}
    shown = {_key(each.candidate): each for each in recipes}
    candidates, toners = (
        [_row(shown[_key(each)], texts, clauses, developers) for each in index.candidates]
        for index in (practice.lightening, practice.toning)
    )
    compiled = [_clause(clause, texts) for clause in clauses]
    return {
        **_space(),
        "stops": [_stop(each, texts) for each in practice.stops],
        "visit": list(practice.visit),
        "volumes": practice.volumes,
        "words": {**PHONE_WORDS, "narrowed": NARROWED, "bowl_of": BOWL_OF},
        "asked": {name: QUESTIONS[name] for name in ASKED},
        "texts": texts.all,
        "clauses": compiled,
        "candidates": candidates,
        "toners": toners,
        "names": [
            {str(texts.place(each.id)): each.name for each, *_ in recipes if each.kind == kind != "pair"}
            for kind in CANDIDATE_KINDS
        ],
        "developers": [
            [texts.place(each.id), texts.place(each.label), plain_number(each.volume)] for each in mixes
        ],
        "bowls": {
            str(texts.place(blend_id)): [size, *([texts.place(name), shows] for name, shows in pours)]
            for blend_id, (size, pours) in bowls.items()
        },
        "pigment": [pigment_sentence(found) for found in UNDERLYING],
        "shows": [found.shows for found in UNDERLYING],
        "folders": [entry_address(kind, "")[:-1] for kind in ("blend", "blend", "technique")],
    }


def _space() -> dict[str, Any]:
    """What is the same for every book: the facets of a head, and the orders that numbers point into.

    ``facets``: of each place of a head its name, values, phrase, the usual head's values, the phrase for
    one where it differs. ``at_once``: places of facets of which several are true.
    """
    return {
        "facets": [
            [name, list(DOMAINS[name]), PHRASES.get(name, ""), usual, *([ONE[name]] if name in ONE else [])]
            for name, usual in zip(PLACES, USUAL, strict=True)
        ],
        "at_once": sorted(AT_ONCE),
        "bits": {name.lower(): getattr(bits, name) for name in BITS},
        "kinds": list(CANDIDATE_KINDS),
        "verdicts": list(VERDICTS),
        "effects": list(EFFECTS),
    }


def _clause(clause: Clause, texts: _StringTable) -> list[Any]:
    return [
        _sets(clause.when),
        texts.place(clause.because),
        texts.place(standing(clause)),
        texts.place(clause.instead[1] if clause.instead else None),
        CANDIDATE_KINDS.index(clause.instead[0]) if clause.instead else -1,
        int(asked_once(clause)),
        texts.place(clause.of),
    ]


def _stop(stop: Stop, texts: _StringTable) -> list[Any]:
    return [
        _sets(stop.when),
        EFFECTS.index(stop.effect),
        *texts.all_of((stop.do, stop.because, stop.standing)),
        int(stop.toning),
        stop.levels,
        stop.weeks,
    ]


def _key(candidate: Candidate) -> tuple[str, str, str | None]:
    return candidate.kind, candidate.id, candidate.within


def _developers(recipes: Iterable[Shown]) -> list[Mix]:
    """Every developer that an answer may name, the strongest first."""
    found = {mix for each in recipes for mix in each.developers}
    found |= {bowl.developer for each in recipes for bowl in each.bowls}
    return sorted(found, key=lambda each: (-each.volume, each.name.casefold(), each.id))


def _row(
    shown: Shown, texts: _StringTable, clauses: dict[Clause, int], developers: Mapping[str, int]
) -> list[Any]:
    """A candidate: kind, id, name, technique of a pair, hair it suits, clauses that exclude and that prefer,
    placements (bit set), developers, cautions, 1 where it tones, minutes, first check, bowls.

    A bowl of a technique: the areas it goes to (0 where it tones), 1 where it holds the pair's blend,
    developer, its blend's cautions.
    """
    # The order of a row is read by position in match.js.
    each = shown.candidate
    return [
        CANDIDATE_KINDS.index(each.kind),
        texts.place(each.id),
        texts.place(each.name),
        texts.place(each.within),
        _sets(each.suits),
        [clauses.setdefault(clause, len(clauses)) for clause in each.excluded_by],
        [clauses.setdefault(clause, len(clauses)) for clause in each.preferred_by],
        shown.placements,
        [developers[mix.id] for mix in shown.developers],
        texts.all_of(shown.cautions),
        int(shown.tones),
        shown.minutes,
        shown.check_every,
        [
            [bowl.reach, int(bowl.own), developers[bowl.developer.id], texts.all_of(bowl.cautions)]
            for bowl in shown.bowls
        ],
    ]


def _sets(head: Head) -> list[int]:
    return [number for place, sets in enumerate(head) if sets for number in (place, sets)]
