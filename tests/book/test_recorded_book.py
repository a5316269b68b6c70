"""A book that records lookups: of each field it records, or has its digest in every key, or refuses."""

from dataclasses import fields

import pytest

from bowlbook.book.book import Book
from bowlbook.book.recorded_book import FIELDS, GIVEN, UNRECORDED, recorded_book
from bowlbook.cache.recording import Lookup


def test_every_field_of_a_book_is_accounted_for_once() -> None:
    """A new field is recorded, given or refused: else a page that reads it would be stale."""
    assert sorted([*FIELDS, *GIVEN, *UNRECORDED]) == sorted(each.name for each in fields(Book))


@pytest.mark.parametrize("name", UNRECORDED)
def test_what_no_digest_covers_cannot_be_read(demo_book: Book, name: str) -> None:
    with pytest.raises(AttributeError, match=name):
        getattr(recorded_book(demo_book, set()), name)


@pytest.mark.parametrize("name", FIELDS)
def test_iterating_over_a_field_is_recorded(demo_book: Book, name: str) -> None:
    lookups: set[Lookup] = set()
    assert dict(getattr(recorded_book(demo_book, lookups), name)) == dict(getattr(demo_book, name))
    assert (name, "*") in lookups


@pytest.mark.parametrize("name", GIVEN)
def test_what_is_in_every_key_is_the_same(demo_book: Book, name: str) -> None:
    assert getattr(recorded_book(demo_book, set()), name) == getattr(demo_book, name)
