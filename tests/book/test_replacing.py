"""Files replaced all or none: faults and kills at every call, a full disk, strangers' journals."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from bowlbook.book.folder import JOURNAL
from bowlbook.book.replacing import NotReplaced, create_all, finish, replace_all
from checks.small_book import CLAY_FILE, DEVELOPER_FILE, FOIL_FILE, SmallBook
from commands.run import run
from systems import needs_fork, needs_limits, needs_links, needs_modes

HERE = Path(__file__).parent
PATHS = os.pathsep.join([str(HERE.parent), str(HERE.parents[1] / "generator")])
LIST = """\
product,net,price,date
clay,450 g,45.00,2026-11-20
developer-20,1 L,15.50,2026-11-20
foil,500 pieces,21.00,2026-11-20
"""


def driven(*words: object) -> dict[str, int]:
    """What the driver beside this module prints."""
    done = subprocess.run(
        [sys.executable, str(HERE / "replacing_driver.py"), *map(str, words)],
        env={**os.environ, "PYTHONPATH": PATHS},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    found: dict[str, int] = json.loads(done.stdout)
    return found


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    Path(list_of(book)).write_text(LIST, encoding="utf-8")
    return book


def list_of(book: SmallBook) -> str:
    return str(book.root.parent / "list.csv")


def bytes_of(book: SmallBook) -> dict[str, bytes]:
    return {
        path.relative_to(book.root).as_posix(): path.read_bytes()
        for path in sorted(book.root.rglob("*"))
        if path.is_file()
    }


@pytest.mark.parametrize("how", ["replace", "create"])
def test_a_fault_at_every_call(tmp_path: Path, how: str) -> None:
    """Without any later run the files are all old or all new, and nothing is beside them."""
    found = driven(tmp_path / "book", "raise", "once", how)
    assert found["tried"] > (25 if how == "replace" else 20) and found["mixed"] == 0, found
    assert found["old"] > (20 if how == "replace" else 10) and found["new"] > 2


@needs_fork
@pytest.mark.parametrize("how", ["replace", "create"])
@pytest.mark.parametrize("times", ["once", pytest.param("twice", marks=pytest.mark.long)])
def test_killed_at_every_call(tmp_path: Path, times: str, how: str) -> None:
    """The next run completes it or takes it back, also where that run is killed in its turn."""
    found = driven(tmp_path / "book", "kill", times, how)
    assert found["tried"] > (20 if times == "once" else 100) and found["mixed"] == 0, found
    assert (
        found["old"] > (10 if how == "replace" else 5)
        and found["new"] > 5
        and found["mixed until finished"] > 0
    )


def stopped(work: Callable[[], None]) -> None:
    """Do the work until its second file is to be put in place."""
    with pytest.MonkeyPatch.context() as patch:
        replace, calls = Path.replace, []

        def stop(self: Path, target: Path) -> Path:
            calls.append(target)
            if len(calls) == 2:
                raise KeyboardInterrupt
            return replace(self, target)

        patch.setattr(Path, "replace", stop)
        with pytest.raises(KeyboardInterrupt):
            work()


def half_done(book: SmallBook) -> dict[str, bytes]:
    """Stop a take-over after its first file; the contents before it."""
    before = bytes_of(book)
    contents = {}
    for file in (CLAY_FILE, DEVELOPER_FILE, FOIL_FILE):
        contents[book.root / file] = (before[file], before[file].replace(b"2026-09-01", b"2026-11-20"))
    stopped(lambda: replace_all(book.root, contents))
    return before


def test_a_book_that_is_half_changed_is_an_error_until_it_is_finished(book: SmallBook) -> None:
    before = half_done(book)
    checked = run("check", recipes=book.root)
    assert checked.exit_code == 1 and "Run bowlbook prices again" in checked.stdout
    done = run("prices", list_of(book), recipes=book.root)
    assert done.exit_code == 0 and "was finished first" in done.stderr
    after = bytes_of(book)
    assert {path for path in after if after[path] != before.get(path)} == {
        CLAY_FILE,
        DEVELOPER_FILE,
        FOIL_FILE,
    }
    assert after.keys() == before.keys()
    assert run("check", recipes=book.root).exit_code == 0


def test_a_file_that_was_edited_since_is_left_and_named(book: SmallBook) -> None:
    half_done(book)
    book.edit(FOIL_FILE, "12 cm", "11 cm")
    mine = (book.root / FOIL_FILE).read_bytes()
    done = run("prices", list_of(book), recipes=book.root)
    assert f"{book.root / FOIL_FILE} was changed since and left as it is" in done.stderr
    assert (book.root / FOIL_FILE).read_bytes() == mine
    assert b"2026-11-20" in (book.root / DEVELOPER_FILE).read_bytes()


@needs_modes
def test_a_read_only_file(book: SmallBook) -> None:
    before = bytes_of(book)
    (book.root / FOIL_FILE).chmod(0o444)
    done = run("prices", list_of(book), "--take-over", recipes=book.root)
    assert done.exit_code == 1
    assert done.stderr == f"Nothing was taken over. {book.root / FOIL_FILE} is read-only.\n"
    assert bytes_of(book) == before


@needs_modes
def test_modes_stay(book: SmallBook) -> None:
    (book.root / CLAY_FILE).chmod(0o640)
    assert run("prices", list_of(book), "--take-over", recipes=book.root).exit_code == 0
    assert (book.root / CLAY_FILE).stat().st_mode & 0o777 == 0o640
    assert sorted(path.name for path in book.root.iterdir() if path.name.startswith(".")) == []


@needs_limits
def test_a_full_disk(book: SmallBook) -> None:
    """In a process that can write files of 100 bytes only."""
    import resource

    before = bytes_of(book)
    done = subprocess.run(
        [
            sys.executable,
            "-c",
            "from bowlbook.commands import main; main()",
            *("prices", list_of(book), "--take-over", "--recipes", str(book.root)),
        ],
        env={**os.environ, "PYTHONPATH": PATHS, "PYTHONDONTWRITEBYTECODE": "1"},
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100)),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1 and done.stderr == "Nothing was taken over. File too large.\n"
    assert bytes_of(book) == before
    assert [path.name for path in book.root.iterdir() if path.name.startswith(".")] == []


def test_another_list_at_the_same_time(book: SmallBook) -> None:
    half_done(book)
    before = bytes_of(book)
    path = book.root / CLAY_FILE
    with pytest.raises(NotReplaced, match="Another price list or table is being taken over"):
        replace_all(book.root, {path: (path.read_bytes(), b"name: Other\n")})
    assert bytes_of(book) == before


@needs_links
@pytest.mark.parametrize(
    "path",
    [
        "house.yml",
        "products/Clay.yml",
        "products/clay.txt",
        "products/../../outside.yml",
        "../products/clay.yml",
        "blends/soft-clay.yml",
        "products/link.yml",
        "/etc/hosts",
    ],
)
def test_a_stranger_s_journal_writes_nothing(book: SmallBook, path: str) -> None:
    """A journal in a book that somebody sent names only product files, or it is refused whole."""
    import hashlib

    outside = book.root.parent / "outside.yml"
    outside.write_text("mine\n", encoding="utf-8")
    (book.root / "products" / "link.yml").symlink_to(outside)
    journal = book.root / JOURNAL
    journal.mkdir()
    target = book.root / path
    old = target.read_bytes() if target.is_file() else b""
    (journal / "0.new").write_bytes(b"theirs\n")
    digests = [hashlib.sha256(each).hexdigest() for each in (old, b"theirs\n")]
    (journal / "files.json").write_text(json.dumps([[path, *digests]]), encoding="utf-8")
    before = bytes_of(book)
    with pytest.raises(NotReplaced, match="is no journal of bowlbook"):
        finish(book.root)
    assert bytes_of(book) == before and outside.read_text(encoding="utf-8") == "mine\n"
    assert run("prices", list_of(book), recipes=book.root).exit_code == 1


@pytest.mark.parametrize("text", ["", "{}", "[1]", '[["products/clay.yml"]]', "\xff"])
def test_a_journal_that_cannot_be_read(book: SmallBook, text: str) -> None:
    (book.root / JOURNAL).mkdir()
    (book.root / JOURNAL / "files.json").write_text(text, encoding="latin-1")
    if text == "{}":  # an empty list of files: nothing is written, and nothing stays
        assert finish(book.root) == []
        return
    with pytest.raises(NotReplaced, match="is no journal of bowlbook"):
        finish(book.root)


def test_a_hidden_folder_of_somebody_else_s_stays(book: SmallBook) -> None:
    mine = book.root / f"{JOURNAL}-my_notes"
    mine.mkdir()
    (mine / "note").write_text("keep", encoding="utf-8")
    assert run("prices", list_of(book), "--take-over", recipes=book.root).exit_code == 0
    assert (mine / "note").read_text(encoding="utf-8") == "keep"


def test_nothing_to_finish(book: SmallBook) -> None:
    assert finish(book.root) is None


def test_shared_products_are_finished_too(tmp_path: Path) -> None:
    """The journal is in the book, the product on the shelf of a group."""
    book = SmallBook(tmp_path / "group" / "north" / "recipes")
    shelf = tmp_path / "group" / "products"
    shelf.mkdir()
    for file in (CLAY_FILE, DEVELOPER_FILE, FOIL_FILE):
        text = book.texts[file].replace("priced_on", "currency: CAD, priced_on")
        (book.root / file).unlink()
        (shelf / Path(file).name).write_text(text, encoding="utf-8")
    book.add("house.yml", "products_from: ../../products\n")
    (tmp_path / "list.csv").write_text(LIST, encoding="utf-8")
    folder, contents = book.root / ".." / ".." / "products", {}
    for file in (CLAY_FILE, DEVELOPER_FILE, FOIL_FILE):
        path = folder / Path(file).name
        contents[path] = (path.read_bytes(), path.read_bytes().replace(b"2026-09-01", b"2026-11-19"))
    stopped(lambda: replace_all(book.root, contents))
    assert run("prices", str(tmp_path / "list.csv"), recipes=book.root).exit_code == 0
    assert [b"2026-11-19" in path.read_bytes() for path in shelf.iterdir()] == [True] * 3
    assert not (book.root / JOURNAL).exists()


def test_a_new_file_never_goes_over_one_that_is_there(book: SmallBook) -> None:
    """Neither one that was there, nor one that somebody makes meanwhile; then none of the others is made."""
    before = bytes_of(book)
    new, there = book.root / "products" / "aaa.yml", book.root / CLAY_FILE
    with pytest.raises(NotReplaced, match="is there already"):
        create_all(book.root, {new: b"name: A\n", there: b"name: B\n"})
    assert bytes_of(book) == before
    late = book.root / "products" / "bbb.yml"
    link = os.link
    with pytest.MonkeyPatch.context() as patch:

        def somebody_is_faster(source: Path, target: Path) -> None:
            if target == late:
                late.write_bytes(b"theirs\n")
            link(source, target)

        patch.setattr(os, "link", somebody_is_faster)
        with pytest.raises(NotReplaced, match="changed meanwhile"):
            create_all(book.root, {new: b"name: A\n", late: b"name: B\n"})
    assert bytes_of(book) == {**before, "products/bbb.yml": b"theirs\n"}


def test_a_disk_without_hard_links(book: SmallBook) -> None:
    new = book.root / "blends" / "aaa.yml"
    with pytest.MonkeyPatch.context() as patch:

        def refuse(source: Path, target: Path) -> None:
            raise PermissionError(1, "Operation not permitted")

        patch.setattr(os, "link", refuse)
        create_all(book.root, {new: b"name: A\n"})
    assert new.read_bytes() == b"name: A\n" and not list(book.root.glob(".*"))
