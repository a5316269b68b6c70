"""A recipe has not been gone over for longer than the house allows, or never.

Why: makers change their instructions, and hands drift.
Source: the house's `review_after`.
Wrong: no `reviewed`, or one older than that.
Right: go over it against the makers' instructions, then write `reviewed: {on: 2026-10-02, by: …}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.review import review_due
from bowlbook.entries.situation import Situation
from bowlbook.entries.technique import Technique
from bowlbook.entries.trouble import Trouble
from bowlbook.reading.finding import Finding

KINDS = ("blend", "technique", "situation", "class", "trouble")


def find(
    book: Book, recipe: Blend | Technique | Situation | ClassNotes | Trouble, today: date
) -> Iterator[Finding]:
    """Warnings at the review stamp of a blend, technique, situation, class notes or a trouble."""
    due = review_due(recipe.reviewed.on if recipe.reviewed else None, book.house.review_after)
    if due is not None and due >= today:
        return
    yield recipe.source.objection(
        ("reviewed", "on") if recipe.reviewed else ("name",),
        "This was never reviewed." if due is None else f"The review was due by {due.isoformat()}.",
        "Go over it against the makers' instructions, then write the day under reviewed.",
        severity="warning",
    )
