"""Every text of a book, with its place: what the checks of wording look through. Not a check itself."""

import re
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple, cast

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry
from bowlbook.reading.place import Place
from bowlbook.reading.source import Loc


class _Texts(NamedTuple):
    """An entry and its texts in one, with line ends between them: those for everybody, and the private."""

    entry: Entry
    public: str
    private: str


def texts_with(
    book: Book, sign: Callable[[str], object], *, public: bool = False
) -> Iterator[tuple[Entry, Loc, str]]:
    """The texts of each entry that has the sign in any of its texts; the house first, in the file's order.

    ``sign`` is what no text that is looked for goes without, such as ``PHONE.search``; it is asked once an
    entry, of all its texts with line ends between them. ``public``: only what a copy for the public shows.
    """
    for entry, shown, hidden in _texts_of(book):
        if sign(shown) or (hidden and not public and sign(hidden)):
            for loc, text in _ways(entry.source.data, ()):
                if sign(text) and not (public and entry.source.is_private(loc)):
                    yield entry, loc, text


def lines_with(entry: Entry, loc: Loc, hits: Iterable[re.Match[str]]) -> list[Place]:
    """Where in the file the hits in a text stand, one place a line, in order."""
    by_line: dict[int, Place] = {}
    for hit in hits:
        place = entry.source.place_in(loc, hit.start(), hit[0])
        by_line[place.line] = min(place, by_line.get(place.line, place))
    return sorted(by_line.values())


def _texts_of(book: Book) -> list[_Texts]:
    """The texts of each entry, gathered once a book."""
    found = book.worked_out.get("texts")
    if found is None:
        found = []
        for entry in [book.house, *(entry for _, entry in book.entries())]:
            public: list[str] = []
            private: list[str] = []
            _gather(entry.source.data, entry.source.private, public, private)
            found.append(_Texts(entry, "\n".join(public), "\n".join(private)))
        book.worked_out["texts"] = found
    return cast(list[_Texts], found)


def _gather(value: object, keys: frozenset[str], public: list[str], private: list[str]) -> None:
    """Add every text in a value; what stands behind one of the private ``keys`` is private, at any depth."""
    if isinstance(value, str):
        public.append(value)
    elif isinstance(value, dict):
        for key, inner in value.items():
            if key in keys:
                _gather(inner, keys, private, private)
            elif isinstance(inner, str):
                public.append(inner)
            else:
                _gather(inner, keys, public, private)
    elif isinstance(value, list):
        for inner in value:
            _gather(inner, keys, public, private)


def _ways(value: object, loc: Loc) -> Iterator[tuple[Loc, str]]:
    """Every text in a value, with the way to it."""
    if isinstance(value, str):
        yield loc, value
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _ways(inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _ways(inner, (*loc, index))
