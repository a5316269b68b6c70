"""An entry uses one that is retired.

Why: a recipe with a retired product or blend in it is kept out of the answers until it is mended; an
"instead" that leads to a retired entry leads nowhere.
Source: none needed.
Wrong: a blend whose lightener has `retired: {on: 2026-10-02, because: …, instead: white-powder}`.
Right: name what is taken instead, or retire this entry too. What a retired entry used is not looked at.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired, retired_of
from bowlbook.book.reference import references
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.reading.finding import Finding

KINDS = ENTRY_KINDS
RETIRED_TOO = True


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """Warnings at the id of what is retired."""
    retired_itself = is_retired(entry)
    for loc, ref, entry_id in references(entry) if book.retired else ():
        if loc[0] in ("avoid", "comes_from") or (retired_itself and loc[0] != "retired"):
            continue
        if (ref.to, entry_id) not in book.retired:
            continue
        retired = retired_of(book.of_kind(ref.to)[entry_id])
        assert retired is not None
        message = f'"{entry_id}" was retired on {retired.on.isoformat()}: {retired.because}'
        mend = f'Name "{retired.instead}" here, or another.' if retired.instead else "Name another here."
        yield entry.source.objection(loc, message, mend, severity="warning")
