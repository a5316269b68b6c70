"""What can be found in entries with mistakes in them, and in what uses these. Not a check itself.

An entry with a mistake is no part of the book that pages are made from. It is checked all the same, beside
everything that it names and that could be read; a check that looks at a value that could not be read says
nothing more of that entry. So one run reports every mistake, and no mistake twice.
"""

from collections.abc import Iterator
from contextlib import suppress
from datetime import date

from bowlbook.book.book import Book, EntryKey
from bowlbook.checks import found_by
from bowlbook.checks.run import checks_of
from bowlbook.entries.partial import Unread
from bowlbook.reading.finding import Finding


def run_unfinished(book: Book, keys: list[EntryKey], today: date) -> Iterator[Finding]:
    """What the checks find in these entries of a book, some of whose entries are partial."""
    for kind, entry_id in keys:
        entry = book.of_kind(kind)[entry_id]
        for check in checks_of(kind, entry):
            with suppress(Unread):  # what was found before it met what is unread counts
                yield from found_by(check, book, entry, today)
