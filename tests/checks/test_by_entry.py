"""A check that says BY_ENTRY finds in a part of a book what it finds in the whole, for every entry of it."""

import random
from dataclasses import replace
from pathlib import Path

import pytest
from bench.synthetic import write_book
from figures.richer_book import enrich

from checks.small_book import BLEND_FILE, DAY, HOUSE_FILE, SITUATION_FILE, SmallBook
from generator.book.book import Book, EntryKey
from generator.book.read_book import read_book
from generator.checks.by_entry import HOUSE, part_of, reach_of, run_kept
from generator.checks.run import BY_ENTRY, WHOLE_BOOK, code_of, run_checks
from generator.reading.finding import Finding, in_order


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory, demo_book: Book) -> dict[str, Book]:
    """Books with findings of many kinds: drawn ones, the demo book, and a small one with mistakes."""
    folder = tmp_path_factory.mktemp("books")
    made = {"demo": demo_book}
    for seed in (1, 2):
        write_book(folder / str(seed), 40, seed)
        made[str(seed)] = _read(folder / str(seed))
    spoilt = enrich(SmallBook(folder / "spoilt"))
    spoilt.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    spoilt.add(BLEND_FILE, "notes: Ines paid 47.50 for it, see [it](there), ines@example.org.\n")
    spoilt.add(BLEND_FILE, "not_for: [{when: {curl: [coily]}, because: It breaks.}]\n")
    spoilt.edit(SITUATION_FILE, "texture: [fine]", "texture: [coarse], curl: [coily]")
    spoilt.edit(HOUSE_FILE, "currency: CAD", "currency: CDA")
    made["spoilt"] = _read(spoilt.root)
    return made


def _read(root: Path) -> Book:
    book = read_book(root).book
    assert book is not None
    return book


def parts(book: Book) -> dict[EntryKey, Book]:
    """Of each entry, the part of the book that its findings may depend on."""
    entries = {HOUSE: book.house, **{(kind, entry.id): entry for kind, entry in book.entries()}}
    return {key: part_of(book, reach) for key, reach in reach_of(entries).items()}


@pytest.mark.parametrize("name", ["demo", "1", "2", "spoilt"])
def test_the_parts_together_find_what_the_whole_does(books: dict[str, Book], name: str) -> None:
    book = books[name]
    split = parts(book)
    for check in BY_ENTRY:
        found = [finding for part in split.values() for finding in check.find(part, DAY)]
        assert in_order(found) == in_order(list(check.find(book, DAY))), code_of(check)


def test_the_books_have_many_findings(books: dict[str, Book]) -> None:
    codes = {finding.code for book in books.values() for finding in run_checks(book, DAY)}
    assert len(codes & {code_of(check) for check in BY_ENTRY}) >= 10


def test_a_check_is_kept_by_entry_only_where_it_says_so() -> None:
    assert {code_of(check) for check in WHOLE_BOOK} == {
        "look-alike-id",
        "looser-than-shared",
        "same-name",
        "unused-entry",
    }


class Memory:
    """What is kept, in a dictionary; ``asked`` says under how many keys nothing was."""

    def __init__(self) -> None:
        self.known: dict[bytes, object] = {}
        self.asked = 0

    def get(self, key: bytes) -> object:
        self.asked += key not in self.known
        return self.known.get(key)

    def put(self, key: bytes, value: object) -> None:
        self.known[key] = value

    def save(self) -> None:
        """Nothing to write."""


def kept_run(book: Book, memory: Memory, edited: dict[EntryKey, int]) -> list[Finding]:
    """A run in which each entry has been edited so often."""
    keys = [HOUSE, *((kind, entry.id) for kind, entry in book.entries())]
    stamps = {key: f"{key} {edited.get(key, 0)}".encode() for key in keys}
    return run_kept(replace(book, stamps=stamps), DAY, memory)  # type: ignore[arg-type]


@pytest.mark.parametrize("name", ["demo", "1", "2", "spoilt"])
def test_whatever_is_kept_the_findings_are_those_of_a_whole_run(books: dict[str, Book], name: str) -> None:
    book, draw = books[name], random.Random(5)
    expected = run_checks(book, DAY)
    memory = Memory()
    assert kept_run(book, memory, {}) == expected
    keys = [HOUSE, *((kind, entry.id) for kind, entry in book.entries())]
    for _ in range(4):
        edited = dict.fromkeys(draw.sample(keys, 2), draw.randint(1, 10**9))
        assert kept_run(book, memory, edited) == expected


def test_an_edit_asks_again_for_what_it_can_reach_only(books: dict[str, Book]) -> None:
    book, memory = books["spoilt"], Memory()
    kept_run(book, memory, {})

    def asked(key: EntryKey) -> int:
        memory.asked = 0
        kept_run(book, memory, {key: 1})
        return memory.asked

    assert asked(("class", "first-painting")) == 1
    assert asked(("technique", "painting")) == 3  # and its situation and class
    assert asked(("blend", "soft-clay")) == 4
    assert asked(HOUSE) == len(book.entries()) + 1
