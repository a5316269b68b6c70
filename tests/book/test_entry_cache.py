"""Reading with a cache is reading without one: after any edit, in any state of the cache."""

import marshal
import os
import pickle
import random
import sys
from pathlib import Path
from typing import Any

import pytest

from bowlbook.book import entry_cache
from bowlbook.book import kept as kept_module
from bowlbook.book.kept import DIGEST, LENGTH, digest
from bowlbook.book.read_book import Reading, read_book
from bowlbook.reading.finding import finding_text
from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, SmallBook
from systems import needs_links, needs_modes


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder in which the cache is kept."""
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    return tmp_path / "cache" / "bowlbook"


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    return SmallBook(tmp_path / "recipes")


def said(reading: Reading) -> object:
    """Everything that a reading holds, places of values included."""
    assert reading.book is None or reading.book.house
    entries = (
        [] if reading.book is None else [reading.book.house, *(each for _, each in reading.book.entries())]
    )
    return (
        [finding_text(each) for each in reading.findings],
        [(repr(each), each.source.data, each.source.values, each.source.keys) for each in entries],
    )


def without(root: Path) -> object:
    return said(read_book(root))


def test_a_second_reading_reads_no_file_anew(
    book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = said(read_book(book.root))
    monkeypatch.setattr("bowlbook.reading.document.read_content", None)  # would raise if it were called
    assert said(read_book(book.root)) == first == without_cache_of(book, monkeypatch)
    assert len(list(kept.iterdir())) == 1


def without_cache_of(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> object:
    monkeypatch.undo()
    return without(book.root)


def test_any_edits_in_any_order(book: SmallBook, kept: Path) -> None:
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
            assert said(read_book(book.root)) == without(book.root)
            (book.root / "products" / "folie.yml").rename(book.root / "products" / "foil.yml")
        assert said(read_book(book.root)) == without(book.root)


def test_the_same_bytes_under_another_name_or_kind(book: SmallBook, kept: Path, tmp_path: Path) -> None:
    read_book(book.root)
    text = (book.root / CLAY_FILE).read_text(encoding="utf-8")
    (book.root / "products" / "second.yml").write_text(text, encoding="utf-8")
    (book.root / "blends" / "clay.yml").write_text(text, encoding="utf-8")
    assert said(read_book(book.root)) == without(book.root)


def test_paths_are_shown_as_they_are_typed(
    book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book.edit(BLEND_FILE, "name: Soft", "nme: Soft")
    read_book(book.root)
    monkeypatch.chdir(book.root.parent)
    shown = [each.place.path for each in read_book(Path("recipes")).findings]
    assert f"recipes/{BLEND_FILE}" in shown


def cache_file(kept: Path) -> Path:
    (file,) = kept.iterdir()
    return file


def known_in(file: Path) -> dict[bytes, Any]:
    """The index of a cache file."""
    content = file.read_bytes()[DIGEST:]
    return marshal.loads(content[LENGTH : LENGTH + int.from_bytes(content[:LENGTH])])


def write_known(file: Path, known: object, packs: bytes = b"") -> None:
    """Write a cache file as the program would, whatever is in it."""
    first = marshal.dumps(known)
    file.write_bytes(digest(first) + len(first).to_bytes(LENGTH) + first + packs)


def repacked(file: Path, pack: bytes) -> None:
    """Put the same pack beside everything in a cache file, as the program would have written it."""
    told = {key: (row[0], 0, len(pack), digest(pack)) for key, row in known_in(file).items()}
    write_known(file, told, pack)


@pytest.mark.parametrize("content", [b"", b"nonsense", marshal.dumps([1]), marshal.dumps({b"x": b"y"})])
@pytest.mark.parametrize("signed", [False, True])
def test_a_cache_that_is_broken_is_read_past(
    book: SmallBook, kept: Path, content: bytes, signed: bool
) -> None:
    read_book(book.root)
    cache_file(kept).write_bytes(digest(content) + content if signed else content)
    assert said(read_book(book.root)) == without(book.root)


def test_one_sign_changed_anywhere_or_cut_short_is_noticed(book: SmallBook, kept: Path) -> None:
    book.edit(BLEND_FILE, "name: Soft", "nme: Soft")
    read_book(book.root)
    file = cache_file(kept)
    before, expected = file.read_bytes(), without(book.root)
    draw = random.Random(3)
    for _ in range(20):
        place = draw.randrange(len(before))
        file.write_bytes(
            before[:place] + bytes([before[place] ^ 1 << draw.randrange(8)]) + before[place + 1 :]
        )
        assert said(read_book(book.root)) == expected
        file.write_bytes(before[:place])
        assert said(read_book(book.root)) == expected


def test_an_entry_in_it_that_is_broken_is_read_anew(book: SmallBook, kept: Path) -> None:
    read_book(book.root)
    file = cache_file(kept)
    for value in (b"broken", (1, 2), ([], (1, 2)), ([1], None)):
        write_known(file, {key: (value, *row[1:]) for key, row in known_in(file).items()})
        assert said(read_book(book.root)) == without(book.root)
    for pack in (b"", b"broken", marshal.dumps(1), marshal.dumps(({"name": "x"}, [0] * 6, frozenset()))):
        repacked(file, pack)
        assert said(read_book(book.root)) == without(book.root)
    write_known(file, known_in(file))
    assert said(read_book(book.root)) == without(book.root)


def test_texts_are_unpacked_when_they_are_asked_for(book: SmallBook, kept: Path) -> None:
    read_book(book.root)
    read = read_book(book.root).book
    assert read is not None
    source = read.blends["soft-clay"].source
    with pytest.raises(AttributeError):
        object.__getattribute__(source, "text")
    again = pickle.loads(pickle.dumps(source))
    assert source.text == again.text == book.texts[BLEND_FILE]
    assert source.excerpt(1) == again.excerpt(1) == "name: Soft clay three to one"
    assert not hasattr(source, "anything_else")


def lied_to(file: Path) -> None:
    """Give everything in a cache file another name, as the program would have written it."""
    content = file.read_bytes()
    start = len(content) - sum(row[2] for row in known_in(file).values())
    told, packs = {}, b""
    for key, (value, at, length, _) in known_in(file).items():
        data, *rest = marshal.loads(content[start + at : start + at + length])
        pack = marshal.dumps(({**data, "name": "A lie"} if "name" in data else data, *rest))
        told[key] = (value, len(packs), len(pack), digest(pack))
        packs += pack
    write_known(file, told, packs)


@needs_modes
def test_a_cache_that_others_may_write_to_is_not_trusted(book: SmallBook, kept: Path) -> None:
    read_book(book.root)
    file = cache_file(kept)
    lied_to(file)
    read = read_book(book.root).book
    assert read is not None and read.blends["soft-clay"].name == "A lie"  # were it the user's own
    file.chmod(0o666)
    assert said(read_book(book.root)) == without(book.root)


@needs_modes
def test_a_cache_of_somebody_else_is_not_trusted(
    book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read_book(book.root)
    file = cache_file(kept)
    lied_to(file)
    monkeypatch.setattr("os.geteuid", lambda: file.stat().st_uid + 1)
    assert said(read_book(book.root)) == without(book.root)


@needs_links
def test_the_program_is_python_its_files_and_its_libraries(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(kept_module, "__file__", str(tmp_path / "book" / "kept.py"))
    for room in ("book", "reading"):
        (tmp_path / room).mkdir()
        (tmp_path / room / "a.py").write_text("1", encoding="utf-8")

    def now() -> bytes:
        kept_module.program.cache_clear()
        return kept_module.program("book", "reading")

    seen = [now()]
    assert now() == seen[0]
    (tmp_path / "reading" / ".#a.py").symlink_to("somebody@here.4711")  # the lock of an editor
    assert now() == seen[0]
    (tmp_path / "reading" / "a.py").write_text("10", encoding="utf-8")
    seen.append(now())
    os.utime(tmp_path / "reading" / "a.py", ns=(5, 5))
    seen.append(now())
    (tmp_path / "book" / "a.py").rename(tmp_path / "book" / "b.py")
    seen.append(now())
    monkeypatch.setattr(sys, "version", "another")
    seen.append(now())
    monkeypatch.setattr(kept_module, "LIBRARIES", ("yaml",))
    seen.append(now())
    assert len(set(seen)) == len(seen)
    kept_module.program.cache_clear()


@needs_modes
def test_it_lies_with_the_user_and_holds_only_what_is_used(book: SmallBook, kept: Path) -> None:
    read_book(book.root)
    assert cache_file(kept).stat().st_mode & 0o777 == 0o600 and kept.stat().st_mode & 0o777 == 0o700
    before = len(known_in(cache_file(kept)))
    (book.root / "products" / "foil.yml").unlink()
    read_book(book.root)
    assert len(known_in(cache_file(kept))) == before - 1


def test_another_program_reads_anew(book: SmallBook, kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read_book(book.root)
    monkeypatch.setattr(entry_cache, "program", lambda *rooms: b"another")
    calls = []
    read = entry_cache.EntryCache.put
    monkeypatch.setattr(entry_cache.EntryCache, "put", lambda *given: (calls.append(1), read(*given))[1])
    assert said(read_book(book.root)) == without(book.root)
    assert len(calls) >= len(book.texts)


@pytest.mark.parametrize("where", ["off", "relative/folder"])
def test_it_can_be_left_out(
    book: SmallBook, where: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", where)
    monkeypatch.chdir(tmp_path)
    before = sorted(tmp_path.iterdir())
    assert said(read_book(book.root)) == without(book.root)
    assert sorted(tmp_path.iterdir()) == before


def test_a_folder_that_cannot_be_written_to_stops_nothing(
    book: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "file"))
    assert said(read_book(book.root)) == without(book.root)


@needs_modes
def test_a_user_without_a_home_stops_nothing(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    """As in a container that runs under a number of its own: no HOME, no line in the list of users."""

    def no_such_user(number: int) -> object:
        raise KeyError(number)

    for name in ("BOWLBOOK_CACHE", "XDG_CACHE_HOME", "HOME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("pwd.getpwuid", no_such_user)
    assert read_book(book.root).book is not None
