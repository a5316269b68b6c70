"""A head from the words and numbers that a person says, for the command line and the library."""

from collections.abc import Iterable, Mapping

from bowlbook.entries.circumstances import CIRCUMSTANCES, PERSONS, WORN
from bowlbook.entries.facets import FACET_WORDS, HISTORIES
from bowlbook.figures.head import DOMAINS, NO_LIFT, Head, bits_of, head_with, place_in
from bowlbook.figures.tally import any_of
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.read_amount import read_span
from bowlbook.reading.refusal import Refusal

ASKED = (*CIRCUMSTANCES, "now")
"""Everything that may be said of a head, a person and a wish."""
WORDS = {**FACET_WORDS, "wearing": WORN, "person": PERSONS, "heat": ("yes",)}
MOST_SAID = {"weeks": 520, "volume": 100}
"""The largest number that may be said; it is sorted into the largest that the rules tell apart."""
NOT_VIRGIN = tuple(word for word in HISTORIES if word not in ("virgin", "pool water"))


class UnknownWord(Refusal):
    """A word that a facet does not have."""


def said_head(said: Mapping[str, Iterable[str]]) -> Head:
    """The head of what was said, by the names of `ASKED`. Raises as `said_bits`."""
    return head_of_bits({facet: said_bits(facet, texts) for facet, texts in said.items()})


def head_of_bits(bits: Mapping[str, int]) -> Head:
    """The head of what `said_bits` gave: a lift of 0 is a wish for no lift at all."""
    if bits.get("lift", 0) < 0:
        bits = {**bits, "lift": 0, "wish": NO_LIFT}
    return head_with(**bits)


def said_bits(facet: str, texts: Iterable[str]) -> int:
    """One facet's words or numbers, as ``6`` or ``6-7``, as its bit set; -1 for a lift of 0.

    Raises `UnknownWord`, and `Refusal` for a number that cannot be read or for what contradicts itself.
    """
    found = [_word(facet, text) if facet in WORDS else _number(facet, text) for text in texts]
    if -1 in found:
        if set(found) != {-1}:
            raise _no_lift_alone()
        return -1
    bits = any_of(found)
    if facet == "history" and bits & bits_of(facet, ("virgin",)) and bits & bits_of(facet, NOT_VIRGIN):
        raise Refusal("out-of-bounds", "Virgin hair has had nothing of the kind: leave virgin out.", "")
    return bits


def _word(facet: str, text: str) -> int:
    if text not in WORDS[facet]:
        mend = did_you_mean(text, WORDS[facet]) or f"Say one of: {', '.join(WORDS[facet])}."
        raise UnknownWord("unknown-word", f'"{text}" is not one.', mend)
    return bits_of(facet, (text,))


def _number(facet: str, text: str) -> int:
    """A number or a span of them as bits; weeks and volumes sorted into those that rules tell apart."""
    lowest = 0 if facet in ("weeks", "lift") else 1
    most = MOST_SAID.get(facet, int(DOMAINS[facet][-1]))
    span = read_span(text, lowest, most, facet.replace("_", " "))
    if facet == "lift" and span.low == 0:
        if span.high:
            raise _no_lift_alone()
        return -1
    if facet in MOST_SAID:
        first, last = place_in(facet, span.low), place_in(facet, span.high)
        return (1 << last + 1) - (1 << first)
    return bits_of(facet, span)


def _no_lift_alone() -> Refusal:
    return Refusal("out-of-bounds", "0 is no lift at all: say it alone, or levels from 1.", "")
