"""A result comes from the cache only where everything it was made from is the same, whatever is stored."""

import os
import random
import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from functools import partial
from pathlib import Path

import pytest

from bowlbook.cache import cache as cache_module
from bowlbook.cache import digest as digest_module
from bowlbook.cache.cache import Cache, make_together, open_cache
from bowlbook.cache.digest import digest_of, program_digest
from bowlbook.cache.recording import ALL, Answers, Lookup, Recorded
from bowlbook.cache.store import Store
from systems import needs_fork, needs_links, needs_modes, needs_proc


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "cache" / "book.sqlite"


class Maker:
    """Makes a value, and counts how often."""

    def __init__(self) -> None:
        self.count = 0

    def of(self, value: object) -> Callable[[], object]:
        def make() -> object:
            self.count += 1
            return value

        return make


@pytest.fixture
def maker() -> Maker:
    return Maker()


def got(path: Path, name: str, inputs: bytes, make: Callable[[], object], kind: str = "kind") -> object:
    """A result by a run of its own."""
    with Cache(Store(path)) as cache:
        return cache.get_or_make(kind, name, inputs, make)


def test_the_same_inputs_give_the_stored_value(path: Path, maker: Maker) -> None:
    for _ in range(3):
        assert got(path, "a", b"1", maker.of(["value"])) == ["value"]
    assert maker.count == 1


def test_other_inputs_another_name_or_kind_are_made(path: Path, maker: Maker) -> None:
    got(path, "a", b"1", maker.of("first"))
    assert got(path, "a", b"2", maker.of("other inputs")) == "other inputs"
    assert got(path, "b", b"2", maker.of("other name")) == "other name"
    assert got(path, "a", b"2", maker.of("other kind"), kind="second") == "other kind"
    assert got(path, "a", b"1", maker.of("again: the last one is kept")) == "again: the last one is kept"
    assert maker.count == 5


def test_another_program_uses_nothing_of_before(
    path: Path, maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    got(path, "a", b"1", maker.of("before"))
    monkeypatch.setattr(cache_module, "program_digest", lambda: b"another")
    assert got(path, "a", b"1", maker.of("after")) == "after"


def test_a_name_that_is_no_unicode_text(path: Path, maker: Maker) -> None:
    for _ in range(2):
        assert got(path, "caf\udce9.yml", b"1", maker.of(1)) == 1
    assert maker.count == 1


def test_without_a_store_everything_is_made(maker: Maker) -> None:
    cache = Cache()
    for _ in range(2):
        cache.get_or_make("kind", "a", b"1", maker.of(1))
    cache.save()
    assert maker.count == 2 and not cache.is_kept


def test_small_values_are_loaded_at_once(path: Path, maker: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in "abc":
        got(path, name, b"1", maker.of(name))
    with Cache(Store(path)) as cache:
        cache.load_all("kind")
        monkeypatch.setattr(Store, "value", None)  # would raise if it were called
        assert [cache.get_or_make("kind", name, b"1", maker.of(0)) for name in "abc"] == ["a", "b", "c"]


def test_one_result_reads_one_row(path: Path, maker: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    """The others are not read for it: a short command wants a few of a large book's."""
    for name in "abc":
        got(path, name, b"1", maker.of(name))
    monkeypatch.setattr(Store, "results", None)
    assert got(path, "b", b"1", maker.of(0)) == "b"
    with Cache(Store(path)) as cache:
        monkeypatch.setattr(Store, "result", None)
        cache.result("kind", "a", b"1", maker.of(0))  # nothing of it is asked for


def test_what_is_not_yet_saved_is_newer(path: Path, maker: Maker, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in "abc":
        got(path, name, b"1", maker.of(name))
    with Cache(Store(path)) as cache:
        assert cache.get_or_make("kind", "d", b"1", maker.of("d")) == "d"
        cache.load_all("kind")
        monkeypatch.setattr(Store, "result", None)
        monkeypatch.setattr(Store, "value", None)
        assert [cache.get_or_make("kind", name, b"1", maker.of(0)) for name in "abcd"] == ["a", "b", "c", "d"]


def test_a_cache_that_remembers_reads_each_value_once(
    path: Path, maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    got(path, "a", b"1", maker.of(["stored"]))
    cache = Cache(Store(path), remembers=True)
    first = cache.get_or_make("kind", "a", b"1", maker.of(0))
    cache.load_all("kind")
    cache.close()
    for name in ("results", "result", "value"):
        monkeypatch.setattr(Store, name, None)
    assert cache.get_or_make("kind", "a", b"1", maker.of(0)) is first
    assert cache.get_or_make("kind", "a", b"2", maker.of("made")) == "made"
    assert [cache.get_or_make("kind", "a", b"2", maker.of(0)) for _ in range(2)] == ["made", "made"]
    assert cache.get_or_make("kind", "a", b"1", maker.of("again")) == "again"


def test_a_result_of_another_process_is_kept(path: Path, maker: Maker) -> None:
    with Cache(Store(path)) as cache:
        result = cache.result("kind", "a", b"1", maker.of("made"))
        assert result.digest is None
        result.keep(result.make())
        assert result.value == "made" and result.digest is not None
    assert got(path, "a", b"1", maker.of("not this")) == "made"
    with Cache(Store(path)) as cache:
        assert cache.result("kind", "a", b"1", maker.of("")).digest == result.digest


@needs_fork
def test_a_forked_process_reads_with_a_connection_of_its_own(path: Path, maker: Maker) -> None:
    got(path, "a", b"1", maker.of("stored"))
    with Cache(Store(path)) as cache:
        result = cache.result("kind", "a", b"1", maker.of("made"))
        child = os.fork()
        if not child:
            os._exit(0 if result.value == "stored" else 1)
        assert os.waitpid(child, 0)[1] == 0
        assert result.value == "stored"


# What was looked up


def book(**values: int) -> dict[str, int]:
    return dict(values)


def total(entries: dict[str, int], names: list[str]) -> Callable[[set[Lookup]], int]:
    """Adds the entries of these names, or all of them."""

    def make(lookups: set[Lookup]) -> int:
        recorded = Recorded("entries", entries, lookups)
        return sum(recorded.values()) if not names else sum(recorded.get(name, 0) for name in names)

    return make


def answers(entries: dict[str, int]) -> Answers:
    def find(lookup: Lookup) -> bytes:
        key = lookup[1]
        return digest_of(repr(sorted(entries.items()) if key == ALL else entries.get(str(key))))

    return Answers(find)


@pytest.mark.parametrize("seed", range(20))
def test_recorded_results_are_never_stale(path: Path, seed: int) -> None:
    """Random edits of a mapping; results that look up one name, a missing one, or all of them."""
    draw = random.Random(seed)
    entries = book(a=1, b=2, c=3)
    asked: list[list[str]] = [["a"], ["a", "b"], ["missing"], []]
    for _ in range(12):
        name = draw.choice(["a", "b", "c", "missing"])
        if draw.random() < 0.3:
            entries.pop(name, None)
        elif draw.random() < 0.6:
            entries[name] = draw.randrange(4)
        with Cache(Store(path)) as cache:
            for names in asked:
                made = total(entries, names)
                found = cache.recorded_result("total", repr(names), b"", answers(entries), made).value
                assert found == made(set())


def test_a_lookup_that_did_not_matter_makes_nothing_again(path: Path) -> None:
    entries = book(a=1, b=2)
    with Cache(Store(path)) as cache:
        cache.recorded_result("total", "a", b"", answers(entries), total(entries, ["a"])).value  # noqa: B018
    entries["b"] = 3
    with Cache(Store(path)) as cache:
        result = cache.recorded_result("total", "a", b"", answers(entries), total(entries, ["a"]))
        assert result.digest is not None
        result = cache.recorded_result("total", "a", b"other", answers(entries), total(entries, ["a"]))
        assert result.digest is None


# A store that cannot be trusted


def filled(path: Path) -> list[str]:
    names = [f"name {number}" for number in range(12)]
    with Cache(Store(path)) as cache:
        for name in names:
            cache.get_or_make("kind", name, b"1", lambda name=name: f"value of {name}")  # type: ignore[misc]
    return names


def all_right(path: Path, names: list[str]) -> None:
    """Each value is right, in this run and in the next."""
    for _ in range(2):
        with Cache(Store(path)) as cache:
            for name in names:
                value = cache.get_or_make("kind", name, b"1", lambda name=name: f"value of {name}")  # type: ignore[misc]
                assert value == f"value of {name}"


@pytest.mark.parametrize("content", [b"", b"no database", b"\0" * 5000, b"SQLite format 3\0" + b"\1" * 5000])
def test_what_is_no_store_is_begun_again(path: Path, content: bytes) -> None:
    names = filled(path)
    path.write_bytes(content)
    all_right(path, names)
    assert got(path, names[0], b"1", lambda: "not made") == f"value of {names[0]}"


def test_bytes_changed_anywhere_or_cut_short(path: Path) -> None:
    names = filled(path)
    whole, draw = path.read_bytes(), random.Random(3)
    for _ in range(60):
        spoilt = bytearray(whole)
        for _ in range(draw.choice([1, 1, 50])):
            spoilt[draw.randrange(len(spoilt))] ^= 1 << draw.randrange(8)
        path.write_bytes(bytes(spoilt[: draw.choice([len(spoilt), draw.randrange(len(spoilt))])]))
        all_right(path, names)


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE results SET value = X'00'",
        "UPDATE results SET value = 5",
        "UPDATE results SET value = NULL",
        "UPDATE results SET inputs = 'text'",
        "UPDATE results SET digest = X'0000'",
        "UPDATE results SET lookups = X'00'",
        "UPDATE results SET value = (SELECT value FROM results WHERE name = CAST('name 3' AS BLOB))",
        "UPDATE results SET name = CAST(('x' || name) AS BLOB)",
        "DROP TABLE results",
        "ALTER TABLE results RENAME TO other",
        "ALTER TABLE results RENAME COLUMN value TO content",
    ],
)
def test_rows_changed_by_another_program(path: Path, change: str) -> None:
    names = filled(path)
    with closing(sqlite3.connect(path)) as database, database:
        database.execute(change)
    all_right(path, names)


def test_a_row_under_the_name_of_another(path: Path) -> None:
    names = filled(path)
    with closing(sqlite3.connect(path)) as database, database:
        rows = database.execute("SELECT name, inputs, lookups, digest, value FROM results").fetchall()
        for (name, *_), (_, *rest) in zip(rows, rows[1:] + rows[:1], strict=True):
            database.execute(
                "UPDATE results SET inputs = ?, lookups = ?, digest = ?, value = ? WHERE name = ?",
                (*rest, name),
            )
    all_right(path, names)


def test_a_store_that_another_program_holds_is_gone_without(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bowlbook.cache.store.WAIT", 0.01)
    names = filled(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        all_right(path, [*names, "new"])
        other.execute("ROLLBACK")
    with closing(sqlite3.connect(path)) as database:
        assert database.execute("SELECT COUNT(*) FROM results").fetchone() == (len(names),)


@needs_modes
def test_a_store_that_others_may_write_to_is_not_read(path: Path) -> None:
    names = filled(path)
    path.chmod(0o666)
    assert got(path, names[0], b"1", lambda: "made") == "made"
    assert path.stat().st_mode & 0o777 == 0o600 and path.parent.stat().st_mode & 0o777 == 0o700


@needs_modes
def test_a_store_of_somebody_else_is_not_read(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    names = filled(path)
    monkeypatch.setattr("os.geteuid", lambda: path.stat().st_uid + 1)
    assert got(path, names[0], b"1", lambda: "made") == "made"


@needs_links
def test_a_store_behind_a_link_is_not_read(path: Path, tmp_path: Path) -> None:
    names = filled(path)
    path.rename(tmp_path / "elsewhere")
    path.symlink_to(tmp_path / "elsewhere")
    assert got(path, names[0], b"1", lambda: "made") == "made"


def test_a_folder_that_cannot_be_written_to_stops_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert got(tmp_path / "file" / "book.sqlite", "a", b"1", lambda: 1) == 1


# Its size and its place


@needs_proc
@pytest.mark.parametrize("kept", [True, False])
def test_many_results_are_made_in_several_processes(
    path: Path, kept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bowlbook.cache.processes.processes_at_hand", lambda: 2)
    monkeypatch.setattr(cache_module, "MANY", 40)
    begun = []
    here = os.getpid()

    def make(number: int) -> tuple[int, int]:
        if os.getpid() == here:
            os.waitid(os.P_ALL, 0, os.WEXITED | os.WNOWAIT)  # until the other process has made the rest
        return number, os.getpid()

    with Cache(Store(path) if kept else None) as cache:
        first = [cache.result("kind", f"a{n}", b"1", partial(make, n)) for n in range(50)]
        second = [cache.result("kind", f"b{n}", b"1", lambda n=n: first[n].value) for n in range(50)]
        make_together(list(zip(first, second, strict=True)), lambda *done: begun.append(done))
        assert all(each.is_loaded for each in (*first, *second))  # before any other process is begun
        made = [each.value for each in first]
        assert [number for number, _ in made] == list(range(50))
        assert {process for _, process in made} != {here}
        assert [each.value for each in second] == made  # those of a group are made in one process
        assert begun == [(n + 1, 50) for n, process in made if process == here]
        make_together([(each,) for each in first[:39]])  # few: left as they are
    if kept:
        assert [got(path, f"b{n}", b"1", lambda: "not made") for n in range(50)] == made


def rows_in(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as database:
        return [name.decode() for (name,) in database.execute("SELECT name FROM results ORDER BY name")]


@pytest.fixture
def day(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[int], None]]:
    """Sets the day of the store's clock."""
    yield lambda number: monkeypatch.setattr("bowlbook.cache.store.time.time", lambda: number * 86_400.0)


def test_what_was_not_used_for_the_longest_time_goes_first(path: Path, day: Callable[[int], None]) -> None:
    for number, name in enumerate("abcd"):
        day(number)
        got(path, name, b"1", lambda name=name: name * 40_000)  # type: ignore[misc]
    day(5)
    got(path, "a", b"1", lambda: "not made")  # used again
    day(6)
    with Cache(Store(path, largest=130_000)) as cache:
        cache.get_or_make("kind", "e", b"1", lambda: "e" * 40_000)
    assert rows_in(path) == ["a", "d", "e"]


def test_a_book_has_one_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, maker: Maker) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    for folder in ("recipes", "recipes", "../" + tmp_path.name + "/recipes", "others"):
        with open_cache(tmp_path / folder) as cache:
            cache.get_or_make("kind", "a", b"1", maker.of(1))
    assert maker.count == 2
    assert len(list((tmp_path / "cache" / "bowlbook").iterdir())) == 2


@pytest.mark.parametrize("where", ["off", "relative/folder"])
def test_it_can_be_left_out(where: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", where)
    monkeypatch.chdir(tmp_path)
    with open_cache(tmp_path) as cache:
        assert cache.get_or_make("kind", "a", b"1", lambda: 1) == 1
        assert not cache.is_kept
    assert list(tmp_path.iterdir()) == []


@needs_modes
def test_a_user_without_a_home_stops_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """As in a container that runs under a number of its own: no HOME, no line in the list of users."""

    def no_such_user(number: int) -> object:
        raise KeyError(number)

    for name in ("BOWLBOOK_CACHE", "XDG_CACHE_HOME", "HOME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("pwd.getpwuid", no_such_user)
    with open_cache(Path("recipes")) as cache:
        assert not cache.is_kept


@needs_links
def test_the_program_is_python_its_files_and_its_libraries(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(digest_module, "__file__", str(tmp_path / "cache" / "digest.py"))
    for room in ("cache", "reading"):
        (tmp_path / room).mkdir()
        (tmp_path / room / "a.py").write_text("1", encoding="utf-8")

    def now() -> bytes:
        program_digest.cache_clear()
        return program_digest()

    seen = [now()]
    assert now() == seen[0]
    (tmp_path / "reading" / ".#a.py").symlink_to("somebody@here.4711")  # the lock of an editor
    (tmp_path / "reading" / "__pycache__").mkdir()
    (tmp_path / "reading" / "__pycache__" / "a.pyc").write_text("1", encoding="utf-8")
    assert now() == seen[0]
    (tmp_path / "reading" / "a.py").write_text("10", encoding="utf-8")
    seen.append(now())
    os.utime(tmp_path / "reading" / "a.py", ns=(5, 5))
    seen.append(now())
    (tmp_path / "cache" / "a.py").rename(tmp_path / "cache" / "b.py")
    seen.append(now())
    monkeypatch.setattr(sys, "version", "another")
    seen.append(now())
    monkeypatch.setattr(digest_module, "LIBRARIES", ("yaml",))
    seen.append(now())
    assert len(set(seen)) == len(seen)
    program_digest.cache_clear()
