"""A check that says BY_ENTRY finds in a part of a book what it finds in the whole, for every entry of it."""

import random
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest

from bench.synthetic import write_book
from bowlbook.book.book import Book, EntryKey
from bowlbook.book.folder import FOLDERS
from bowlbook.book.read_book import read_book
from bowlbook.book.reference import plan
from bowlbook.checks.by_entry import HOUSE, part_of, reach_of, run_kept
from bowlbook.checks.run import BY_ENTRY, WHOLE_BOOK, code_of, run_checks
from bowlbook.entries.entry import parts_in
from bowlbook.entries.validate import classes_of
from bowlbook.reading.finding import Finding, in_order
from checks.small_book import BLEND_FILE, DAY, HOUSE_FILE, SITUATION_FILE, SmallBook
from figures.richer_book import enrich


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
    outlines = book.outlines()
    return {key: part_of(book, [key], reach_of(key, outlines)) for key in (HOUSE, *outlines)}


@pytest.mark.parametrize("name", ["demo", "1", "2", "spoilt"])
def test_the_parts_together_find_what_the_whole_does(books: dict[str, Book], name: str) -> None:
    book = books[name]
    split = parts(book)
    for check in BY_ENTRY:
        found = [finding for key in split for finding in check.find(split[key], DAY)]
        if getattr(check, "OF_HOUSE", False):
            assert list(check.find(split[HOUSE], DAY)) == list(check.find(book, DAY)), code_of(check)
        assert in_order(found) == in_order(list(check.find(book, DAY))), code_of(check)


def test_the_books_have_many_findings(books: dict[str, Book]) -> None:
    codes = {finding.code for book in books.values() for finding in run_checks(book, DAY)}
    assert len(codes & {code_of(check) for check in BY_ENTRY}) >= 10


def test_a_check_is_kept_by_entry_only_where_it_says_so() -> None:
    assert {code_of(check) for check in WHOLE_BOOK} == {
        "look-alike-id",
        "looser-than-shared",
        "no-hair-amounts",
        "same-name",
        "unused-entry",
    }


def test_no_kind_of_entry_leads_back_to_itself() -> None:
    """What stands for an entry takes in what stands for those that it leads to, and that must end."""
    leads: dict[str, set[str]] = {}
    for kind in FOLDERS.values():
        refs = [ref for cls in classes_of(kind) for ref in refs_in(cls)]
        leads[kind] = {to for name, to in refs if name != "instead"}
    while leads:
        ends = [kind for kind, others in leads.items() if not others & leads.keys()]
        assert ends, f"in a circle: {leads}"
        for kind in ends:
            del leads[kind]


def refs_in(cls: Any) -> list[tuple[str, str]]:
    """The name of each field that refers to another entry, at any depth, and the kind that it refers to."""
    found = []
    for name, ref in plan(cls):
        if ref is not None:
            found.append((name, ref.to))
        else:
            (spec,) = (spec for spec in fields(cls) if spec.name == name)
            found += [each for inner in parts_in(spec.type) for each in refs_in(inner)]
    return found


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
