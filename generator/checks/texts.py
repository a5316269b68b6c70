"""Every text of a book, with its place: what the checks of wording look through. Not a check itself."""

from collections.abc import Iterator

from generator.book.book import Book
from generator.entries.entry import Entry
from generator.reading.source import Loc


def texts_of(book: Book) -> Iterator[tuple[Entry, Loc, str]]:
    """Each text of each entry, the house first, keys apart, in the order of the file."""
    for entry in [book.house, *(entry for _, entry in book.entries())]:
        for loc, text in _texts(entry.source.data, ()):
            yield entry, loc, text


def public_texts_of(book: Book) -> Iterator[tuple[Entry, Loc, str]]:
    """Those of them that a copy for the public shows."""
    for entry, loc, text in texts_of(book):
        if not entry.source.is_private(loc):
            yield entry, loc, text


def _texts(value: object, loc: Loc) -> Iterator[tuple[Loc, str]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _texts(inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _texts(inner, (*loc, index))
    elif isinstance(value, str):
        yield loc, value
