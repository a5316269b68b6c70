"""A part of a book holds its entry exactly where the whole book does, and reads no more than it needs."""

import random

import pytest

from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book, read_part
from checks.small_book import BLEND_FILE, CLAY_FILE, FILES, SmallBook
from seeds import seeds

POWDER_BLEND = FILES[BLEND_FILE].replace("name: Soft clay three to one", "name: Powder two to one")
REFUSAL = "not_for:\n  - {{when: {{texture: [coarse]}}, because: Slow., instead: {0}}}\n"


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    """The small book with two blends more, of which each leads on to the next."""
    book.write("blends/second.yml", POWDER_BLEND + REFUSAL.format("third"))
    book.write("blends/third.yml", POWDER_BLEND.replace("Powder", "Third"))
    book.add(BLEND_FILE, REFUSAL.format("second"))
    return book


def same(part: Book | None, whole: Book | None, kind: str, entry_id: str) -> bool:
    """Whether both hold the entry, and alike with all it names, or neither holds it."""
    if whole is None or entry_id not in whole.of_kind(kind):
        return part is None
    if part is None or part.house != whole.house:
        return False
    return all(whole.of_kind(each).get(key) == entry for each, entry in part.entries() for key in [entry.id])


@pytest.mark.parametrize("seed", seeds(3))
def test_it_holds_the_entry_where_the_whole_book_does(book: SmallBook, seed: int) -> None:
    draw = random.Random(seed)
    spoilt = [
        ("name: ", "nme: "),
        ("product: ", "product: no-"),
        ("instead: ", "instead: no-"),
        (": ", ":: "),
    ]
    held = set()
    for _ in range(40):
        path = draw.choice(sorted(book.texts))
        text, (old, new) = book.texts[path], draw.choice(spoilt)
        book.write(path, text.replace(new, old) if draw.random() < 0.7 else text.replace(old, new, 1))
        whole = read_book(book.root).book
        for kind, entry_id in (("blend", "soft-clay"), ("blend", "third"), ("technique", "painting")):
            part = read_part(book.root, kind, entry_id)
            assert same(part, whole, kind, entry_id), (kind, entry_id)
            held.add(part is None)
    assert held == {True, False}


def test_it_reads_only_what_the_entry_leads_to(book: SmallBook) -> None:
    book.write(CLAY_FILE.replace("clay", "other"), ":")
    book.write("techniques/painting.yml", ":")
    part = read_part(book.root, "blend", "soft-clay")
    assert part is not None
    assert set(part.blends) == {"soft-clay", "second", "third"}
    assert set(part.products) == {"clay", "powder", "developer-20"}
    assert not part.techniques and not part.whole


def test_what_the_house_names_is_read_too(book: SmallBook) -> None:
    book.add("house.yml", "measures:\n  - {name: scoop, holds: 20 g, of: [clay]}\n")
    assert read_book(book.root).findings == []
    part = read_part(book.root, "blend", "third")
    assert part is not None and "clay" in part.products


@pytest.mark.parametrize("entry_id", ["nothing", "../products/clay", "", "house", "clay"])
def test_what_is_not_there_is_not_read(book: SmallBook, entry_id: str) -> None:
    assert read_part(book.root, "blend", entry_id) is None


def test_a_book_without_a_house_or_a_folder_has_no_parts(book: SmallBook) -> None:
    (book.root / "house.yml").unlink()
    assert read_part(book.root, "blend", "soft-clay") is None
    assert read_part(book.root / "nowhere", "blend", "soft-clay") is None
