"""A demonstration of a class is on no head at all.

Why: the kit comes out empty, and somebody stands in front of a class without hair.
Source: this project's own rule.
Wrong: `{technique: dark-paint, heads: 0}`.
Right: `{technique: dark-paint, heads: 0, learners_per_head: 2}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.reading.finding import Finding

KINDS = ("class",)


def find(book: Book, notes: ClassNotes, today: date) -> Iterator[Finding]:
    """Findings at the number of heads."""
    for index, each in enumerate(notes.demonstrations):
        if not each.heads and each.learners_per_head is None and each.shares_heads_with is None:
            message = "This is shown on no head."
            mend = "Write how many heads, or add learners_per_head or shares_heads_with."
            yield notes.source.objection(("demonstrations", index, "heads"), message, mend)
