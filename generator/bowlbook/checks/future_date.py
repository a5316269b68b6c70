"""A review, a price or a retirement is dated in the future.

Why: a slip of the year hides a stale price or an overdue review for that long.
Source: none needed; the day of the check (SOURCE_DATE_EPOCH where it is set).
Wrong: `reviewed: {on: 2062-10-02, …}`.
Right: `reviewed: {on: 2026-10-02, …}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry
from bowlbook.entries.product import Product, packs_of
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc

KINDS = ("product", "blend", "technique", "situation", "class")
RETIRED_TOO = True


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """Warnings at the date."""
    reviewed = getattr(entry, "reviewed", None)
    retired = getattr(entry, "retired", None)
    packs = packs_of(entry) if isinstance(entry, Product) else []
    dates: list[tuple[Loc, date | None]] = [
        (("reviewed", "on"), reviewed.on if reviewed else None),
        *(((*loc, "priced_on"), pack.priced_on) for loc, pack in packs),
        (("retired", "on"), retired.on if retired else None),
    ]
    for loc, day in dates:
        if day is not None and day > today:
            message = f"This day is still to come (today is {today.isoformat()})."
            mend = "Write the day on which it was done."
            yield entry.source.objection(loc, message, mend, severity="warning")
