"""A product or a blend that nothing uses.

Why: it is bought, reviewed and searched for nothing; or the recipe that should name it was forgotten.
Source: none needed.
Wrong: a lightener that no blend names; a blend that no technique, situation or alternative names.
Right: use it, or delete it. A shared product may be another book's.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.reading.finding import Finding


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the entry's name."""
    if not book.whole:
        return  # what could not be read may be what uses it
    for (kind, entry_id), outline in book.outlines().items():
        if kind not in ("product", "blend"):
            continue
        if any(user != "trouble" for user, _ in book.used_by.get((kind, entry_id), ())):
            continue  # that something goes wrong with it is no use of it
        if entry_id in book.shared and book.of_kind(kind)[entry_id] is book.shared[entry_id]:
            continue
        yield outline.warning(
            "unused-entry",
            f"No other entry uses this {kind}.",
            "Name it where it belongs, or delete the file.",
        )
