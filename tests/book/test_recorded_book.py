"""A book that records lookups: of each field it records, or has its digest in every key, or refuses."""

from copy import copy
from dataclasses import fields, replace
from datetime import date

import pytest

from bowlbook.book.book import Book
from bowlbook.book.lazy_entries import OUTLINES, outline_at, outlines_of
from bowlbook.book.outline import outline_of
from bowlbook.book.recorded_book import FIELDS, GIVEN, UNRECORDED, answers_of, recorded_book
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


def test_who_asks_whether_there_is_any_depends_on_nothing_else(demo_book: Book) -> None:
    lookups: set[Lookup] = set()
    blends = demo_book.blends
    assert recorded_book(demo_book, lookups).blends
    (asked,) = lookups
    one = dict([next(iter(blends.items()))])
    answers = [answers_of(replace(demo_book, blends=each)).to(asked) for each in (blends, one, {})]
    assert answers[0] == answers[1] != answers[2]


def test_who_looks_at_outlines_alone_depends_on_nothing_else(demo_book: Book) -> None:
    """Another outline of any entry, and the answer is another; another text, and it is the same."""
    lookups: set[Lookup] = set()
    blends = recorded_book(demo_book, lookups).blends
    entry_id = next(iter(blends))
    lookups.clear()
    assert outlines_of(blends) == {each: outline_of(blend) for each, blend in demo_book.blends.items()}
    assert outline_at(blends, entry_id) == outline_of(demo_book.blends[entry_id])
    every, one = ("blends", OUTLINES), ("blends", f"{OUTLINES} {entry_id}")
    assert lookups == {every, one}

    def answers(**edited: object) -> tuple[bytes, bytes]:
        blend = copy(demo_book.blends[entry_id])
        for name, value in edited.items():
            object.__setattr__(blend, name, value)
        found = answers_of(replace(demo_book, blends={**demo_book.blends, entry_id: blend}))
        return found.to(every), found.to(one)

    same = answers()
    assert answers(notes="Another text.") == same
    reviewed = copy(demo_book.blends[entry_id].reviewed)
    object.__setattr__(reviewed, "on", date(2020, 2, 29))
    for edit in ({"name": "Another name"}, {"reviewed": reviewed}, {"lighteners": ()}):
        assert all(now != then for now, then in zip(answers(**edit), same, strict=True)), edit
    without = {each: blend for each, blend in demo_book.blends.items() if each != entry_id}
    gone = answers_of(replace(demo_book, blends=without))
    assert gone.to(every) != same[0] and gone.to(one) != same[1]
