"""A text that the public may read names a member of staff or a supplier.

Why: who works and who sells here is left out of the public's copy, and then stands in a note all the same.
Source: none needed; the names are those under `reviewed` and `pack` in this book.
Wrong: `notes: Ask Ines before you take more than two bowls.`
Right: `notes: Ask the senior before you take more than two bowls.`
"""

import re
from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.checks.texts import objections, texts_with
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.reading.finding import Finding

KINDS = ENTRY_KINDS
RETIRED_TOO = True

SHORTEST = 3
"""Letters of the shortest name looked for; shorter ones are words too often."""


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """Warnings at the line."""
    names = [name for name in book.people if len(name) >= SHORTEST]
    if not names:
        return

    def has_one(text: str) -> bool:
        return any(name in text for name in names)

    for loc, text in texts_with(entry, has_one, public=True):
        named = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, names))})(?!\w)")
        message = "This names a member of staff or a supplier, and the public may read it here."
        mend = "Say the part they play, or write it under private."
        yield from objections(entry, loc, named.finditer(text), message, mend)
