"""The book compiled for Pick by hair: plain data that its short script evaluates on the phone.

One truth: the bit sets and clauses are those of `generator.figures.candidate`, the words those of
`generator.pages.reason`. Strings stand once, in ``texts``; everything else points at them.
"""

from collections.abc import Mapping, Sequence
from typing import Any

from generator.entries.facets import FACETS
from generator.figures.candidate import KINDS, Candidate, Clause
from generator.figures.head import DOMAINS, USUAL, Head
from generator.figures.pigment import UNDERLYING
from generator.pages.address import entry_address
from generator.pages.bowl_panel import Panel
from generator.pages.reason import NOTHING_TO_LIFT, PHRASES, pigment_sentence, standing


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
    candidates: Sequence[Candidate], names: Mapping[str, str], bowls: Mapping[str, Sequence[str]]
) -> dict[str, Any]:
    """The data of Pick by hair for a book. ``names``: of blends and techniques. ``bowls``: each blend's `first_bowl`.

    ``facets``: name, values, phrase, the usual head's values. ``clauses``: facet sets, why, on whose word,
    what instead. ``candidates``: kind, id, name, technique of a pair, whom it suits, clauses that exclude and
    that prefer. A set of heads is a list of alternating facet numbers and bit sets. ``bowls``: for each
    blend, by the number of its id, its smallest batch and what the scale shows.
    """
    texts = _Texts()
    clauses: dict[Clause, int] = {}
    rows = [
        [
            KINDS.index(each.kind),
            texts.place(each.id),
            texts.place(each.name),
            texts.place(each.within),
            _sets(each.suits),
            [clauses.setdefault(clause, len(clauses)) for clause in each.excluded_by],
            [clauses.setdefault(clause, len(clauses)) for clause in each.preferred_by],
        ]
        for each in candidates
    ]
    compiled = [
        [
            _sets(clause.when),
            texts.place(clause.because),
            texts.place(standing(clause)),
            texts.place(clause.instead[1] if clause.instead else None),
        ]
        for clause in clauses
    ]
    return {
        "facets": [
            [name, list(DOMAINS[name]), PHRASES[name], usual]
            for name, usual in zip(FACETS, USUAL, strict=True)
        ],
        "kinds": list(KINDS),
        "texts": texts.all,
        "clauses": compiled,
        "candidates": rows,
        "names": {str(texts.place(entry_id)): name for entry_id, name in names.items()},
        "bowls": {str(texts.place(blend_id)): list(bowl) for blend_id, bowl in bowls.items()},
        "unlifted": NOTHING_TO_LIFT,
        "pigment": [pigment_sentence(found) for found in UNDERLYING],
        "folders": [entry_address(kind, "")[:-1] for kind in ("blend", "blend", "technique")],
    }


def _sets(head: Head) -> list[int]:
    return [number for place, bits in enumerate(head) if bits for number in (place, bits)]


def first_bowl(panels: Sequence[Panel]) -> list[str]:
    """A blend's smallest batch and what the scale shows after each pour."""
    return [panels[0].label, *(each.scale_shows for each in panels[0].lines)]
