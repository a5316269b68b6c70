"""A book that records what is looked up in it, and what it answers today to recorded lookups."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NoReturn

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDER_OF, FOLDERS
from bowlbook.book.lazy_entries import OUTLINES, outline_at, outlines_of
from bowlbook.cache.digest import digest_of
from bowlbook.cache.recording import ALL, ANY, Answers, Lookup, Recorded
from bowlbook.entries.entry import Entry

FIELDS = (*FOLDERS, "pictures", "shared", "used_by")
"""The mappings whose lookups are recorded."""
GIVEN = ("house", "unread", "whole")
"""The fields whose digest is part of every key: see `given_of`."""
UNRECORDED = ("released", "stamps")
"""The fields that no digest covers, and that a recorded book therefore refuses to give."""
FACTS = "facts"
"""The field of what is known of all products and stamps together: prices and people."""


class RecordedBook(Book):
    """The same book; each lookup in a mapping, and each fact that is asked for, is added to ``lookups``.

    AttributeError for the fields that are `UNRECORDED`: checks of the whole book may read those.
    """

    lookups: set[Lookup]
    inner: Book

    @property
    def released(self) -> NoReturn:  # the class has a default, which would be found
        """Refused: see `UNRECORDED`."""
        raise AttributeError("released: what differs from the last release is in no key of the cache")

    @property
    def prices(self) -> tuple[Fraction, ...]:
        """As `Book.prices`."""
        self.lookups.add((FACTS, "prices"))
        return self.inner.prices

    @property
    def people(self) -> tuple[str, ...]:
        """As `Book.people`."""
        self.lookups.add((FACTS, "people"))
        return self.inner.people

    @property
    def priced(self) -> bool:
        """As `Book.priced`: less than the prices themselves, and so seldom another answer."""
        self.lookups.add((FACTS, "priced"))
        return self.inner.priced


def recorded_book(book: Book, lookups: set[Lookup]) -> Book:
    """The same book, that records in ``lookups`` what is looked up in it."""
    made = object.__new__(RecordedBook)  # without the defaults of fields that are left out
    recorded = {name: Recorded(name, getattr(book, name), lookups) for name in FIELDS}
    given = {name: getattr(book, name) for name in GIVEN}
    vars(made).update(recorded, **given, lookups=lookups, inner=book)
    return made


def given_of(book: Book) -> bytes:
    """The digest of what is not recorded: the house, and which entries could not be read."""
    stamp = book.stamps.get(("house", "house"), b"")
    return digest_of(stamp or book.house.source.text, str(book.whole), repr(sorted(book.unread)))


def answers_of(book: Book) -> Answers:
    """What a book answers today. An entry is what its file says: the file's digest answers for it."""
    stamps = {
        (FOLDER_OF[kind], entry_id): stamp
        for (kind, entry_id), stamp in book.stamps.items()
        if kind in FOLDER_OF
    }
    fields: dict[str, Mapping[Any, Any]] = {name: getattr(book, name) for name in FIELDS}

    def find(lookup: Lookup) -> bytes:
        field, key = lookup
        if field == FACTS:
            return digest_of(repr(getattr(book, str(key))))
        inner = fields[field]
        if str(key).startswith(OUTLINES):
            one = str(key).removeprefix(OUTLINES).strip()
            if one and one not in inner:
                return b""
            return digest_of(repr(outline_at(inner, one) if one else outlines_of(inner)))
        if key == ANY:
            return digest_of(str(bool(inner)))
        if key == ALL:
            return digest_of(*[answers.to((field, each)) + repr(each).encode() for each in inner])
        stamp = stamps.get((field, str(key)))
        if stamp and key in inner:  # the entry itself need not be loaded
            return stamp
        found = inner.get(key)
        if isinstance(found, Entry):
            return digest_of(str(key), found.source.path, found.source.text)
        return digest_of(repr(found))

    answers = Answers(find)
    return answers
