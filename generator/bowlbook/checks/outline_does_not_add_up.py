"""A class's outline does not add up to its duration.

Why: the class runs over, and it is the rinsing that gets rushed.
Source: none needed.
Wrong: `duration: 3 hours` and an outline of 170 minutes.
Right: an outline of 180 minutes.
"""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.reading.amount import counted
from bowlbook.reading.finding import Finding

KINDS = ("class",)


def find(book: Book, notes: ClassNotes, today: date) -> Iterator[Finding]:
    """Findings at the duration."""
    total = sum(item.minutes for item in notes.outline)
    if total != notes.duration:
        off = abs(total - notes.duration)
        word = "longer" if total > notes.duration else "shorter"
        message = f"The outline is {counted(off, 'minute')} {word} than this."
        mend = f"Write {counted(Fraction(total), 'minute')} here, or change the outline."
        yield notes.source.objection(("duration",), message, mend)
