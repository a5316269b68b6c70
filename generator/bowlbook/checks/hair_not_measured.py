"""A class shows a technique on hair that the house has not measured.

Why: without the factor of that length or density the class has no kit.
Source: the house's own `hair_amounts`.
Wrong: `length: long` in a demonstration, and `hair_amounts: {length: {medium: 1}, density: {medium: 1}}`.
Right: `hair_amounts: {length: {medium: 1, long: 1.4}, density: {medium: 1}}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.reading.finding import Finding

KINDS = ("class",)


def find(book: Book, notes: ClassNotes, today: date) -> Iterator[Finding]:
    """Warnings at the demonstration's length or density; none where the house has measured nothing."""
    if book.house.hair_amounts is None or not book.house.hair_amounts.heads:
        return  # no-hair-amounts says so
    from bowlbook.figures.service import CannotPlan, hair_factors  # no other check before a class needs them

    for index, each in enumerate(notes.demonstrations):
        try:
            hair_factors(book, each.length, each.density)
        except CannotPlan as refusal:
            yield notes.source.objection(
                ("demonstrations", index, refusal.key or ""),
                f"{refusal.reason} The class has no kit.",
                refusal.mend,
                severity="warning",
            )
