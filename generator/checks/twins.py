"""Entries of one kind that are taken for one another. Not a check itself."""

from collections.abc import Callable, Iterator

from generator.book.book import Book
from generator.entries.entry import Entry


def twins_of(book: Book, seen_as: Callable[[Entry], str]) -> Iterator[tuple[Entry, str]]:
    """Each entry that is seen as an earlier one of its kind, with the id of the first."""
    first: dict[tuple[str, str], str] = {}
    for kind, entry in book.entries():
        twin = first.setdefault((kind, seen_as(entry)), entry.id)
        if twin != entry.id:
            yield entry, twin
