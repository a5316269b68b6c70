"""A book that records lookups: of each field it records, or has its digest in every key, or refuses."""

from copy import copy
from dataclasses import fields, replace
from datetime import date
from pathlib import Path

import pytest

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDERS
from bowlbook.book.lazy_entries import OUTLINES, outline_at, outlines_of
from bowlbook.book.long_texts import WHOLE, long_texts, whole_at
from bowlbook.book.outline import outline_of
from bowlbook.book.read_book import read_book
from bowlbook.book.recorded_book import FIELDS, GIVEN, UNRECORDED, answers_of, recorded_book
from bowlbook.cache.recording import Lookup
from checks.small_book import BLEND_FILE, SmallBook


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
    found, whole = getattr(recorded_book(demo_book, lookups), name), getattr(demo_book, name)
    assert list(found) == list(whole) == list(dict(found.items()))
    assert (name, "*") in lookups


@pytest.mark.parametrize("name", FOLDERS)
def test_an_entry_is_given_without_its_long_texts(demo_book: Book, name: str) -> None:
    """Whoever shows one takes the entry whole, and depends on its whole file: no page can be stale by it."""
    lookups: set[Lookup] = set()
    entries = getattr(recorded_book(demo_book, lookups), name)
    entry_id, whole = next(iter(getattr(demo_book, name).items()))
    for found in (entries[entry_id], entries.get(entry_id), dict(entries.items())[entry_id]):
        assert {*vars(whole)} - {*vars(found)} == {"source", *long_texts(type(whole))}
        assert "private" in long_texts(type(whole))
        for left_out in long_texts(type(whole)):
            with pytest.raises(TypeError, match=left_out):
                getattr(found, left_out, None)
        with pytest.raises(AttributeError):
            found.source  # noqa: B018
    lookups.clear()
    assert whole_at(entries, entry_id) is whole
    assert lookups == {(name, f"{WHOLE}{entry_id}")}


@pytest.mark.parametrize("stamped", [True, False])
def test_an_edit_of_a_long_text_is_another_answer_for_who_took_it_whole_alone(
    tmp_path: Path, stamped: bool
) -> None:
    """The same for entries known by their files' digests, and for those of a book made without."""
    small = SmallBook(tmp_path)

    def answers() -> list[bytes]:
        book = read_book(tmp_path).book
        assert book is not None
        found = answers_of(book if stamped else replace(book, stamps={}))
        return [found["blends", key] for key in ("soft-clay", f"{WHOLE}soft-clay", f"{WHOLE}none")]

    written = answers()
    small.add(BLEND_FILE, "notes: Another text.\n")
    noted = answers()
    assert [now == then for now, then in zip(noted, written, strict=True)] == [True, False, True]
    small.add(BLEND_FILE, "cautions: [A new caution.]\n")
    warned = answers()
    assert [now == then for now, then in zip(warned, noted, strict=True)] == [False, False, True]


@pytest.mark.parametrize("name", GIVEN)
def test_what_is_in_every_key_is_the_same(demo_book: Book, name: str) -> None:
    assert getattr(recorded_book(demo_book, set()), name) == getattr(demo_book, name)


def test_who_asks_whether_there_is_any_depends_on_nothing_else(demo_book: Book) -> None:
    lookups: set[Lookup] = set()
    blends = demo_book.blends
    assert recorded_book(demo_book, lookups).blends
    (asked,) = lookups
    one = dict([next(iter(blends.items()))])
    answers = [answers_of(replace(demo_book, blends=each))[asked] for each in (blends, one, {})]
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
        return found[every], found[one]

    same = answers()
    assert answers(notes="Another text.") == same
    reviewed = copy(demo_book.blends[entry_id].reviewed)
    object.__setattr__(reviewed, "on", date(2020, 2, 29))
    for edit in ({"name": "Another name"}, {"reviewed": reviewed}, {"lighteners": ()}):
        assert all(now != then for now, then in zip(answers(**edit), same, strict=True)), edit
    without = {each: blend for each, blend in demo_book.blends.items() if each != entry_id}
    gone = answers_of(replace(demo_book, blends=without))
    assert gone[every] != same[0] and gone[one] != same[1]
