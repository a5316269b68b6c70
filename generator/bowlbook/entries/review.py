"""The stamp that says when a person last went over an entry, and the fields many kinds share."""

from datetime import date, timedelta

from bowlbook.entries.amounts import Date
from bowlbook.entries.entry import Part, said
from bowlbook.entries.words import Name, Sentence


class Reviewed(Part):
    """When an entry was last gone over against the maker's instructions and the floor, and who did it."""

    on: Date = said("The day, as 2026-10-02.", public=True)
    by: Name = said("Who went over it. Staff names stay with the team.")
    change: Sentence | None = said(
        "What changed that day, for the page of recent changes.", public=True, default=None
    )


def review_due(reviewed_on: date | None, days: int) -> date | None:
    """The last day on which a review of this day still counts; None without a review."""
    return reviewed_on + timedelta(days=days) if reviewed_on else None
