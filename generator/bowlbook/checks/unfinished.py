"""What can be found in entries with mistakes in them, and in what uses these. Not a check itself.

An entry with a mistake is no part of the book that pages are made from. It is checked all the same, beside
everything that it names and that could be read; a check that looks at a value that could not be read says
nothing more of that entry. So one run reports every mistake, and no mistake twice.
"""

from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from types import ModuleType

from bowlbook.book.book import Book, EntryKey
from bowlbook.checks.by_entry import HOUSE, part_of, reach_of
from bowlbook.checks.run import BY_ENTRY
from bowlbook.entries.partial import Unread
from bowlbook.reading.finding import Finding


def run_unfinished(book: Book, keys: list[EntryKey], today: date) -> list[Finding]:
    """What the checks find in these entries of a book, some of whose entries are partial."""
    checks = [check for check in BY_ENTRY if HOUSE in keys or not getattr(check, "OF_HOUSE", False)]
    findings: list[Finding] = []
    for check in checks:
        try:
            findings += _found(check, book, keys, today)
        except Unread:
            for key in keys:
                findings += _as_far_as_read(check, book, key, today)
    return findings


def _found(check: ModuleType, book: Book, keys: list[EntryKey], today: date) -> Iterable[Finding]:
    """What a check finds in these entries. Raises `Unread`."""
    outlines = book.outlines()
    part = part_of(book, keys, {each for key in keys for each in reach_of(key, outlines)})
    at = {book.of_kind(kind)[entry_id].source.path: (kind, entry_id) for kind, entry_id in keys}
    wanted = set(keys)
    for finding in check.find(part, today):
        if (finding.about or at.get(finding.place.path)) in wanted:
            yield finding


def _as_far_as_read(check: ModuleType, book: Book, key: EntryKey, today: date) -> list[Finding]:
    """What a check finds in one entry before it looks at something that could not be read."""
    found: list[Finding] = []
    with suppress(Unread):
        found += _found(check, book, [key], today)
    return found
