"""A technique uses a blend that suits no head which the technique suits.

Why: followed by the book, that bowl is never mixed; so one of the two is wrong.
Source: none needed; both say which hair they suit.
Wrong: a technique for `natural_level: 1-4` with a blend for `natural_level: 7-10`.
Right: another blend, or wider words in one of the two.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.facets import meet
from bowlbook.entries.technique import Technique
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Warnings at the bowl's blend."""
    for index, bowl in enumerate(technique.bowls):
        if meet(book.blends[bowl.blend].suits, technique.suits) is None:
            message = f'No head suits both this technique and "{bowl.blend}".'
            mend = "Take another blend, or look at what the two suit."
            yield technique.source.objection(("bowls", index, "blend"), message, mend, severity="warning")
