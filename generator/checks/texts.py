"""Every text of a book, with its place: what the checks of wording look through. Not a check itself."""

import re
from collections.abc import Callable, Iterator
from typing import cast

from generator.book.book import Book
from generator.entries.entry import Entry
from generator.reading.source import Loc

Texts = list[tuple[Loc, str]]
DIGIT = re.compile(r"\d")


def texts_with(
    book: Book, sign: Callable[[str], object], *, public: bool = False
) -> Iterator[tuple[Entry, Loc, str]]:
    """The texts of each entry that has the sign in any of its texts; the house first, in the file's order.

    ``sign`` is what no text that is looked for goes without, such as ``DIGIT.search``; it is asked once an
    entry, of all its texts with line ends between them. ``public``: only what a copy for the public shows.
    """
    for entry, joined, texts in _texts_of(book):
        if sign(joined):
            for loc, text in texts:
                if sign(text) and not (public and entry.source.is_private(loc)):
                    yield entry, loc, text


def _texts_of(book: Book) -> list[tuple[Entry, str, Texts]]:
    """Of each entry: all its texts in one, and each with its way. Gathered once a book."""
    found = book.worked_out.get("texts")
    if found is None:
        found = []
        for entry in [book.house, *(entry for _, entry in book.entries())]:
            texts: Texts = []
            _gather(entry.source.data, (), texts)
            found.append((entry, "\n".join([text for _, text in texts]), texts))
        book.worked_out["texts"] = found
    return cast(list[tuple[Entry, str, Texts]], found)


def _gather(value: object, loc: Loc, texts: Texts) -> None:
    if isinstance(value, str):
        texts.append((loc, value))
    elif isinstance(value, dict):
        for key, inner in value.items():
            _gather(inner, (*loc, key), texts)
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            _gather(inner, (*loc, index), texts)
