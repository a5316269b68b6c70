"""A technique places a blend where the blend is not meant to go.

Why: a mix made for the open air dries or swells in a foil, and the other way round.
Source: the blend's own `suits`.
Wrong: `placement: foil` with a blend that suits `placement: [open-air]`.
Right: a blend that suits foil.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Findings at the bowl's blend."""
    for index, bowl in enumerate(technique.bowls):
        suits = book.blends[bowl.blend].suits.placement
        if suits and technique.placement not in suits:
            message = f'"{bowl.blend}" is not meant for {technique.placement} work.'
            mend = f"Take a blend that suits {technique.placement}, or add it to what that blend suits."
            yield technique.source.objection(("bowls", index, "blend"), message, mend)
