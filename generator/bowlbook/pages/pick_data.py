"""The book compiled for Pick by hair: plain data that its short script evaluates on the phone.

One truth: the bit sets and clauses are those of `bowlbook.figures.candidate`, the words those of
`bowlbook.pages.reason`. Strings stand once, in ``texts``; everything else points at them.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.facets import FACETS
from bowlbook.entries.product import Developer
from bowlbook.figures.candidate import KINDS, Candidate, Clause
from bowlbook.figures.head import DOMAINS, USUAL, Head, bits_of
from bowlbook.figures.pigment import UNDERLYING
from bowlbook.figures.use import use_of
from bowlbook.pages.address import entry_address
from bowlbook.pages.bowl_panel import Panel
from bowlbook.wording.amount import plain_number
from bowlbook.wording.developer import with_volume
from bowlbook.wording.reason import NOTHING_TO_LIFT, ONE, PHRASES, pigment_sentence, standing

FirstBowl = tuple[str, list[tuple[str | None, str]]]
"""A batch with its unit; for each pour the product's name (None: the developer) and what the scale shows."""


class _Texts:
    """Strings by number, each once."""

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


def pick_data(
    book: Book,
    candidates: Sequence[Candidate],
    names: Mapping[str, Mapping[str, str]],
    bowls: Mapping[str, FirstBowl],
) -> dict[str, Any]:
    """The data of Pick by hair for a book.

    ``candidates``: all of the book's. ``names``: of blends and techniques, by kind and id. ``bowls``: each
    blend's `first_bowl`.

    ``facets``: name, values, phrase, the usual head's values, the phrase for one where it differs.
    ``clauses``: facet sets, why, on whose word, what instead and its kind. ``candidates``: kind, id, name,
    technique of a pair, whom it suits, clauses that exclude and that prefer, placements (bit set),
    developers, cautions, and 1 where it tones. A set of heads is a list of alternating facet numbers and
    bit sets. ``developers``: id, name with volume, volume. ``bowls``: for each blend, by the number of its
    id, its smallest batch, and for each pour the product's name, -1 for the developer, and what the scale
    shows.
    """
    texts = _Texts()
    clauses: dict[Clause, int] = {}
    developers: dict[str, tuple[int, Developer]] = {}
    uses = [use_of(book, each) for each in candidates]
    rows = [
        [
            KINDS.index(each.kind),
            texts.place(each.id),
            texts.place(each.name),
            texts.place(each.within),
            _sets(each.suits),
            [clauses.setdefault(clause, len(clauses)) for clause in each.excluded_by],
            [clauses.setdefault(clause, len(clauses)) for clause in each.preferred_by],
            bits_of("placement", use.placements),
            [developers.setdefault(mix.id, (len(developers), mix))[0] for mix in use.developers],
            [texts.place(caution) for caution in use.cautions],
            int(use.tones),
        ]
        for each, use in zip(candidates, uses, strict=True)
    ]
    compiled = [
        [
            _sets(clause.when),
            texts.place(clause.because),
            texts.place(standing(clause)),
            texts.place(clause.instead[1] if clause.instead else None),
            KINDS.index(clause.instead[0]) if clause.instead else -1,
        ]
        for clause in clauses
    ]
    return {
        "facets": [
            [name, list(DOMAINS[name]), PHRASES[name], usual, *([ONE[name]] if name in ONE else [])]
            for name, usual in zip(FACETS, USUAL, strict=True)
        ],
        "kinds": list(KINDS),
        "texts": texts.all,
        "clauses": compiled,
        "candidates": rows,
        "names": [
            {str(texts.place(entry_id)): name for entry_id, name in names.get(kind, {}).items()}
            for kind in KINDS
        ],
        "developers": [
            [texts.place(each.id), texts.place(with_volume(each)), plain_number(each.volume)]
            for _, each in developers.values()
        ],
        "bowls": {
            str(texts.place(blend_id)): [
                size,
                *([texts.place(name), shows] for name, shows in pours),
            ]
            for blend_id, (size, pours) in bowls.items()
        },
        "unlifted": NOTHING_TO_LIFT,
        "pigment": [pigment_sentence(found) for found in UNDERLYING],
        "folders": [entry_address(kind, "")[:-1] for kind in ("blend", "blend", "technique")],
    }


def _sets(head: Head) -> list[int]:
    return [number for place, bits in enumerate(head) if bits for number in (place, bits)]


def first_bowl(panels: Sequence[Panel]) -> FirstBowl:
    """A blend's smallest batch, and its pours."""
    first = panels[0]
    pours = [(None if each.role == "developer" else each.name, each.scale_shows) for each in first.lines]
    return first.label, pours
