"""All the checks of a book, in one run. What they find in an entry is cached with what they looked up."""

from datetime import date
from functools import cache, partial
from importlib import import_module
from pathlib import Path
from types import ModuleType
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.book.long_texts import whole_at
from bowlbook.book.recorded_book import answers_of, given_of, recorded_book
from bowlbook.cache.cache import Cache, make_together
from bowlbook.cache.digest import digest_of
from bowlbook.cache.recording import Lookup
from bowlbook.checks import code_of, found_by
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.reading.finding import Finding, sorted_findings, unpacked

NO_CHECKS = ("__init__", "day", "first_alike", "judge", "run", "texts", "unfinished")
CHECKS: tuple[ModuleType, ...] = tuple(
    import_module(f"bowlbook.checks.{path.stem}")
    for path in sorted(Path(__file__).parent.glob("*.py"))
    if path.stem not in NO_CHECKS
)
"""Every module of this room that is a check, by name: a new check needs no list to be put on."""

OF_ENTRIES = tuple(check for check in CHECKS if hasattr(check, "KINDS"))
"""Checks of one entry each, ``find(book, entry, today)``; ``KINDS`` are the kinds of entries they look at."""
OF_BOOK = tuple(check for check in CHECKS if not hasattr(check, "KINDS"))
"""Checks of the whole book, ``find(book, today)``."""


def checks_of(kind: str, entry: Entry) -> tuple[ModuleType, ...]:
    """The checks of an entry. Of a retired one those that say ``RETIRED_TOO``: about its texts and dates."""
    return _checks_of(kind, is_retired(entry))


@cache
def _checks_of(kind: str, retired: bool) -> tuple[ModuleType, ...]:
    of_kind = [check for check in OF_ENTRIES if kind in check.KINDS]
    return tuple(check for check in of_kind if not retired or hasattr(check, "RETIRED_TOO"))


def run_checks(book: Book, today: date, cache: Cache | None = None) -> list[Finding]:
    """Every finding of every check, sorted. ``today`` is the day that prices and reviews are held against.

    An entry that ``cache`` knows is not checked again while the book answers its checks as it did.
    """
    cache = cache or Cache()
    cache.load_all(FOUND)
    given = digest_of(given_of(book), today.isoformat())
    answers = answers_of(book)
    findings = [finding for check in OF_BOOK for finding in found_by(check, book, today)]
    results = [
        cache.recorded_result(
            FOUND, f"{kind} {entry_id}", given, answers, partial(_found_in, book, kind, entry_id, today)
        )
        for kind in ENTRY_KINDS
        for entry_id in book.of_kind(kind)
    ]
    make_together([(each,) for each in results if each.digest is None])
    findings += [unpacked(row) for each in results for row in each.value]
    return sorted_findings(findings)


FOUND = "findings"
"""The kind of result in the cache: what the checks find in one entry."""


def _found_in(book: Book, kind: str, entry_id: str, today: date, lookups: set[Lookup]) -> list[Any]:
    """The findings in an entry, as `packed` gives them."""
    recorded = recorded_book(book, lookups)
    entry = whole_at(recorded.of_kind(kind), entry_id)
    return [
        (tuple(place), code_of(check), *rest)
        for check in checks_of(kind, entry)
        for place, _, *rest in check.find(recorded, entry, today)
    ]
