"""Reading with a cache is reading without one: after any edit."""

import random
from pathlib import Path

import pytest

from bowlbook.book.read_book import ReadResult, read_book
from bowlbook.cache.cache import open_cache
from bowlbook.reading.finding import finding_text
from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, SmallBook


@pytest.fixture(autouse=True)
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))


def said(reading: ReadResult) -> object:
    """Everything that a reading holds, places of values included."""
    assert reading.book is None or reading.book.house
    entries = (
        [] if reading.book is None else [reading.book.house, *(each for _, each in reading.book.entries())]
    )
    return (
        [finding_text(each) for each in reading.findings],
        [(repr(each), each.source.data, each.source.places) for each in entries],
    )


def with_cache(root: Path) -> object:
    """What a reading holds whose entries come from the cache where they can."""
    with open_cache(root) as cache:
        return said(read_book(root, cache=cache))


def without(root: Path) -> object:
    return said(read_book(root))


def test_a_second_reading_reads_no_file_again(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    first = with_cache(book.root)
    with monkeypatch.context() as patch:
        patch.setattr("bowlbook.reading.document.read_content", None)  # would raise if it were called
        assert with_cache(book.root) == first
    assert first == without(book.root)


def test_any_edits_in_any_order(book: SmallBook) -> None:
    draw = random.Random(7)
    edits = [
        (BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5"),
        (BLEND_FILE, "name: Soft", "nme: Soft"),
        (CLAY_FILE, "price: 39.00", "price: 41.00"),
        (HOUSE_FILE, "currency: CAD", "currency: JPY"),
        (CLAY_FILE, "kind: lightener", "kind: supply"),
    ]
    for _ in range(30):
        path, one, other = draw.choice(edits)
        if one in book.texts[path]:
            book.edit(path, one, other)
        elif other in book.texts[path]:
            book.edit(path, other, one)
        if draw.random() < 0.3:
            (book.root / "products" / "foil.yml").rename(book.root / "products" / "folie.yml")
            assert with_cache(book.root) == without(book.root)
            (book.root / "products" / "folie.yml").rename(book.root / "products" / "foil.yml")
        assert with_cache(book.root) == without(book.root)


def test_the_same_bytes_under_another_name_or_kind(book: SmallBook) -> None:
    with_cache(book.root)
    text = (book.root / CLAY_FILE).read_text(encoding="utf-8")
    (book.root / "products" / "second.yml").write_text(text, encoding="utf-8")
    (book.root / "blends" / "clay.yml").write_text(text, encoding="utf-8")
    assert with_cache(book.root) == without(book.root)


def test_paths_are_shown_as_they_are_typed(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    book.edit(BLEND_FILE, "name: Soft", "nme: Soft")
    with_cache(book.root)
    monkeypatch.chdir(book.root.parent)
    with open_cache(Path("recipes")) as cache:
        shown = [each.place.path for each in read_book(Path("recipes"), cache=cache).findings]
    assert f"recipes/{BLEND_FILE}" in shown


def test_a_partial_entry_comes_from_the_cache_as_it_was(book: SmallBook) -> None:
    """The checks go on from what could be read of it."""
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: one to two")

    def seen(with_it: bool) -> object:
        with open_cache(book.root) as cache:
            unfinished = read_book(book.root, cache=cache if with_it else None).unfinished
        assert unfinished is not None
        blend = unfinished[0].blends["soft-clay"]
        return blend.name, vars(blend).keys(), blend.developer.product, vars(blend.developer).keys()

    first = seen(True)
    assert seen(True) == first == seen(False)


def test_an_entry_from_the_cache_keeps_its_text(book: SmallBook) -> None:
    with_cache(book.root)
    with open_cache(book.root) as cache:
        read = read_book(book.root, cache=cache).book
        assert read is not None
        source = read.blends["soft-clay"].source
    assert source.text == book.texts[BLEND_FILE]
    assert source.excerpt(1) == "name: Soft clay three to one"


def test_without_a_cache_nothing_is_written(book: SmallBook, tmp_path: Path) -> None:
    read_book(book.root)
    assert not (tmp_path / "cache").exists()
