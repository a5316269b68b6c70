"""A book that records what is looked up in it, and what it answers today to recorded lookups."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NoReturn

from bowlbook.book.book import Book, EntryKey
from bowlbook.book.folder import FOLDERS
from bowlbook.book.lazy_entries import OUTLINES, outline_at
from bowlbook.book.long_texts import WHOLE, Stamps, short_digest, without_long_texts
from bowlbook.cache.digest import digest_of
from bowlbook.cache.recording import ALL, ANY, Answers, Lookup, Recorded
from bowlbook.entries.entry import Entry

FIELDS = (*FOLDERS, "pictures", "shared", "used_by")
"""The mappings whose lookups are recorded."""
GIVEN = ("house", "unread", "whole")
"""The fields whose digest is part of every key: see `given_of`."""
UNRECORDED = ("released", "stamps")
"""The fields that no digest covers, and that a recorded book therefore refuses to give."""
ABSENT = digest_of()
"""The answer of an entry that is not there."""
FACTS = "facts"
"""The field of what is known of all products and stamps together: prices, people and what is retired."""


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
    def retired(self) -> tuple[EntryKey, ...]:
        """As `Book.retired`."""
        self.lookups.add((FACTS, "retired"))
        return self.inner.retired

    @property
    def priced(self) -> bool:
        """As `Book.priced`: less than the prices themselves, and so seldom another answer."""
        self.lookups.add((FACTS, "priced"))
        return self.inner.priced


def recorded_book(book: Book, lookups: set[Lookup]) -> Book:
    """The same book, that records in ``lookups`` what is looked up in it."""
    made = object.__new__(RecordedBook)  # without the defaults of fields that are left out
    recorded = {name: Recorded(name, getattr(book, name), lookups) for name in FIELDS if name not in FOLDERS}
    for name in FOLDERS:
        recorded[name] = Recorded(name, getattr(book, name), lookups, without_long_texts)
    given = {name: getattr(book, name) for name in GIVEN}
    vars(made).update(recorded, **given, lookups=lookups, inner=book)
    return made


def given_of(book: Book) -> bytes:
    """The digest of what is not recorded: the house, and which entries could not be read."""
    stamps = book.stamps.get(("house", "house"))
    file = stamps.file if stamps else book.house.source.text
    return digest_of(file, str(book.whole), repr(sorted(book.unread)))


def _file_digest(entry: Entry) -> bytes:
    return digest_of(entry.id, entry.source.path, entry.source.text)


def answers_of(book: Book) -> Answers:
    """What a book answers today. An entry is what its file says: that file's digests answer for it."""
    fields: dict[str, Mapping[Any, Any]] = {name: getattr(book, name) for name in FIELDS}

    def find(lookup: Lookup) -> bytes:
        field, key = lookup
        if field == FACTS:
            return digest_of(repr(getattr(book, str(key))))
        inner = fields[field]
        if key == OUTLINES:
            return digest_of(*[answers[field, f"{OUTLINES} {each}"] + each.encode() for each in inner])
        if str(key).startswith(OUTLINES):
            one = str(key).removeprefix(OUTLINES).strip()
            return digest_of(repr(outline_at(inner, one))) if one in inner else ABSENT
        if str(key).startswith(WHOLE):
            one = str(key).removeprefix(WHOLE)
            return stamps_at(field, one).file if one in inner else ABSENT
        if key == ANY:
            return digest_of(str(bool(inner)))
        if key == ALL:
            return digest_of(*[answers[field, each] + repr(each).encode() for each in inner])
        if field in FOLDERS and key in inner:
            return stamps_at(field, str(key)).short
        found = inner.get(key)
        return _file_digest(found) if isinstance(found, Entry) else digest_of(repr(found))

    def stamps_at(field: str, entry_id: str) -> Stamps:
        """Those of an entry; known without loading it where it was read from its file."""
        known = book.stamps.get((FOLDERS[field], entry_id))
        if known is not None:
            return known
        entry: Entry = fields[field][entry_id]
        return Stamps(_file_digest(entry), short_digest(entry))

    answers = Answers(find)
    return answers
