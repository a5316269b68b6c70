"""A demonstration uses practice heads of another again, and there are none, or it has its own as well.

Why: the kit counts the wrong number of heads, and the product for them is missing.
Source: this project's own rule.
Wrong: `shares_heads_with` names a technique that is shown later, not at all, or without `learners_per_head`.
Right: the technique of an earlier demonstration that has `learners_per_head`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.reading.finding import Finding

KINDS = ("class",)


def find(book: Book, notes: ClassNotes, today: date) -> Iterator[Finding]:
    """Findings at ``shares_heads_with``."""
    from bowlbook.figures.kit import shared_with  # needed by class notes alone

    for index, each in enumerate(notes.demonstrations):
        if each.shares_heads_with is None:
            continue
        if each.learners_per_head is not None:
            message = "This has practice heads of its own and uses those of another demonstration."
            mend = "Keep learners_per_head or shares_heads_with, not both."
        elif shared_with(notes, index) is None:
            message = "No demonstration before this one has practice heads for that technique."
            mend = "Name the technique of an earlier demonstration that has learners_per_head."
        else:
            continue
        yield notes.source.objection(("demonstrations", index, "shares_heads_with"), message, mend)
