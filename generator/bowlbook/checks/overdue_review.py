"""A recipe has not been gone over for longer than the house allows, or never.

Why: makers change their instructions, and hands drift.
Source: the house's `review_after`.
Wrong: no `reviewed`, or one older than that.
Right: go over it against the makers' instructions, then write `reviewed: {on: 2026-10-02, by: …}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.review import review_due
from bowlbook.reading.finding import Finding

BY_ENTRY = True


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the review stamp of blends, techniques, situations, class notes and troubles."""
    recipes = (book.blends, book.techniques, book.situations, book.classes, book.troubles)
    for kind in recipes:
        for recipe in kind.values():
            due = review_due(recipe.reviewed, book.house.review_after)
            if due is None:
                message = "This was never reviewed."
            elif due < today:
                message = f"The review was due by {due.isoformat()}."
            else:
                continue
            yield recipe.source.finding(
                ("reviewed", "on") if recipe.reviewed else ("name",),
                "overdue-review",
                message,
                "Go over it against the makers' instructions, then write the day under reviewed.",
                severity="warning",
            )
