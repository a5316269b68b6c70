"""Pages made before, kept for as long as the book answers what was asked for them as it did then.

Exact, or made anew: a kept page is used only where its maker was given the same, where the house, the
audience and every file of the program are the same, and where the book gives the same answer to each thing
that was looked up in it (`generator.book.watched`). A cache that is damaged, foreign or locked is no cache.
"""

import os
import pickle
import sqlite3
import stat
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from functools import cache, partial
from importlib.metadata import version
from pathlib import Path

from generator.book.book import Book
from generator.book.watched import Answers, Ask, digest, watched
from generator.pages.all_pages import Made, Maker
from generator.site.processes import all_made

LIBRARIES = ("babel", "jinja2", "markdown", "markupsafe", "nh3", "segno")
"""What pages are made with, beside this program."""
TABLE = "CREATE TABLE IF NOT EXISTS page (name PRIMARY KEY, given, asked, answers, made, digest)"
WRITE = "INSERT OR REPLACE INTO page VALUES (?, ?, ?, ?, ?, ?)"
WAIT = 0.2
"""Seconds to wait for another build that holds the cache, before going on without it."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What one maker made: from what it was given, what it asked of the book, and what that answered."""

    name: str
    given: bytes
    asked: tuple[Ask, ...]
    answers: bytes
    made: tuple[Made, ...]


class KeptPages:
    """The pages of one book for one audience. Without a path they are kept in memory alone."""

    def __init__(self, path: Path | None) -> None:
        self.path = path
        self.kept = {each.name: each for each in _read(path)}

    def all_made(self, book: Book, audience: str, makers: Sequence[Maker]) -> list[Made]:
        """All that the makers make of this book, in their order; what is not kept is made and kept."""
        answers = Answers(book)
        common = _common(book, audience)
        given = {maker.name: digest((common, maker.given.encode())) for maker in makers}
        good = {name for name, kept in self.kept.items() if _is_good(kept, given.get(name), answers)}
        work = [partial(_making, book, maker) for maker in makers if maker.name not in good]
        fresh = {
            name: Kept(name, given[name], asked, answers.to_all(asked), made)
            for name, asked, made in all_made(work)
        }
        gone = self.kept.keys() - given.keys()
        self.kept = {name: fresh.get(name) or self.kept[name] for name in given}
        _write(self.path, fresh.values(), gone)
        return [made for each in self.kept.values() for made in each.made]


def _making(book: Book, maker: Maker) -> Iterator[tuple[str, tuple[Ask, ...], tuple[Made, ...]]]:
    """What a maker makes, with its name and what it looked up."""
    asked: set[Ask] = set()
    made = tuple(maker.make(watched(book, asked)))
    yield maker.name, tuple(sorted(asked, key=repr)), made


def _is_good(kept: Kept, given: bytes | None, answers: Answers) -> bool:
    return kept.given == given and kept.answers == answers.to_all(kept.asked)


def _common(book: Book, audience: str) -> bytes:
    """What every page is made from beside what its maker looks up."""
    house = book.house.source.text.encode("utf-8", "surrogatepass")
    return digest((_program(), audience.encode(), str(book.priced).encode(), house))


@cache
def _program() -> bytes:
    """What stands for the program that makes pages: Python, every file of it, the libraries behind it."""
    package = Path(__file__).parents[1]
    files = sorted(path for path in package.rglob("*") if "__pycache__" not in path.parts)
    stamps = [(str(each), each.stat().st_size, each.stat().st_mtime_ns) for each in files if each.is_file()]
    return digest(
        (sys.version.encode(), repr(stamps).encode(), *(version(name).encode() for name in LIBRARIES))
    )


def _read(path: Path | None) -> Iterator[Kept]:
    """The rows of a database that can be trusted, and that are whole."""
    if path is None or not _is_own(path):
        return
    with suppress(sqlite3.Error), closing(sqlite3.connect(path, timeout=WAIT)) as database:
        for name, given, asked, answers, made, checked in database.execute("SELECT * FROM page"):
            if isinstance(made, bytes) and digest((asked, made)) == checked:
                yield Kept(name, given, pickle.loads(asked), answers, pickle.loads(made))


def _is_own(path: Path) -> bool:
    """Whether a file is the user's, and nobody else may write to it."""
    with suppress(OSError):
        state = path.lstat()
        return (
            stat.S_ISREG(state.st_mode)
            and state.st_uid == os.geteuid()
            and not stat.S_IMODE(state.st_mode) & 0o022
        )
    return False


def _write(path: Path | None, fresh: Iterable[Kept], gone: Iterable[str]) -> None:
    """Write what is new, take out what is gone. What cannot be written is not kept."""
    rows = list(fresh)
    names = [(name,) for name in gone]
    if path is None or not (rows or names):
        return
    with suppress(sqlite3.Error, OSError):
        if not _is_own(path):
            path.unlink(missing_ok=True)
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            path.touch(0o600)
        try:
            _write_rows(path, rows, names)
        except sqlite3.DatabaseError as error:
            if not isinstance(error, sqlite3.OperationalError):  # damaged: the next build begins anew
                path.unlink()


def _write_rows(path: Path, rows: Sequence[Kept], gone: Sequence[tuple[str]]) -> None:
    with closing(sqlite3.connect(path, timeout=WAIT)) as database, database:
        database.execute("PRAGMA synchronous = OFF")  # each row is checked when it is read
        database.execute(TABLE)
        database.executemany("DELETE FROM page WHERE name = ?", gone)
        for each in rows:
            asked, made = pickle.dumps(each.asked), pickle.dumps(each.made, pickle.HIGHEST_PROTOCOL)
            row = (each.name, each.given, asked, each.answers, made, digest((asked, made)))
            database.execute(WRITE, row)
