"""All the checks of a book, in one run."""

from collections.abc import Callable, Iterator
from datetime import date
from importlib import import_module
from pathlib import Path
from types import ModuleType

from bowlbook.book.book import Book
from bowlbook.reading.finding import Finding, in_order

NO_CHECKS = ("__init__", "by_entry", "day", "fact", "judge", "run", "texts", "twins", "unfinished")
CHECKS: tuple[ModuleType, ...] = tuple(
    import_module(f"bowlbook.checks.{path.stem}")
    for path in sorted(Path(__file__).parent.glob("*.py"))
    if path.stem not in NO_CHECKS
)
"""Every module of this room that is a check, by name: a new check needs no list to be put on."""

BY_ENTRY = tuple(check for check in CHECKS if getattr(check, "BY_ENTRY", False))
"""Those whose findings are kept entry by entry: see `by_entry`."""
WHOLE_BOOK = tuple(check for check in CHECKS if check not in BY_ENTRY)

Check = Callable[[Book, date], Iterator[Finding]]


def code_of(check: ModuleType) -> str:
    """The code of a check: its module's name with hyphens."""
    return check.__name__.rpartition(".")[2].replace("_", "-")


def run_checks(book: Book, today: date) -> list[Finding]:
    """Every finding of every check, sorted. ``today`` is the day that prices and reviews are held against."""
    return in_order([finding for check in CHECKS for finding in check.find(book, today)])
