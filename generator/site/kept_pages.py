"""Pages made before, kept for as long as the book answers what was asked for them as it did then.

Exact, or made anew: a kept page is used only where its maker was given the same, where the house, the
audience and every file of the program are the same, and where the book gives the same answer to each thing
that was looked up in it (`generator.book.watched`). A cache that is damaged, foreign or locked is no cache.
"""

import pickle
import sqlite3
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass, replace
from functools import cache, partial
from importlib.metadata import version
from pathlib import Path
from typing import Any

from generator.book.book import Book
from generator.book.kept import digest, is_own, stamp_of
from generator.book.watched import Answers, Ask, watched
from generator.pages.all_pages import Made, Maker
from generator.pages.page import Document, Page, Piece
from generator.site.processes import all_made

LIBRARIES = ("babel", "jinja2", "markdown", "markupsafe", "nh3", "segno")
"""What pages are made with, beside this program."""
TABLE = "CREATE TABLE IF NOT EXISTS page (name PRIMARY KEY, given, asked, answers, made, stamp, checked)"
READ = "SELECT name, given, asked, answers, made, stamp, checked FROM page"
WRITE = "INSERT OR REPLACE INTO page VALUES (?, ?, ?, ?, ?, ?, ?)"
WAIT = 0.2
"""Seconds to wait for another build that holds the cache, before going on without it."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What one maker made: from what it was given, what it asked of the book, and what that answered.

    ``stamp`` stands for its pieces. ``packed`` is what it made as it is written down, and then let go.
    """

    name: str
    given: bytes
    asked: tuple[Ask, ...]
    answers: bytes
    made: tuple[Made, ...]
    stamp: bytes
    packed: bytes = b""


Making = tuple[str, tuple[Ask, ...], bytes, bytes]
"""A maker's name, what it looked up, what it made, packed, and what stands for its pieces."""


class KeptPages:
    """The pages of one book for one audience. Without a path they are kept in memory alone."""

    def __init__(self, path: Path | None) -> None:
        self.path = path
        self.kept = {each.name: each for each in _read(path)}

    def all_made(self, book: Book, audience: str, makers: Sequence[Maker]) -> list[Page | Document]:
        """All pages and documents that the makers make of this book, in their order.

        What is not kept is made and kept. Makers that put pieces together come after those of the pieces.
        """
        answers, common = Answers(book), _common(book, audience)
        fresh: list[Kept] = []
        for needing in (False, True):
            fresh += self._made_anew(
                book, answers, common, [each for each in makers if bool(each.needs) == needing]
            )
        names = [maker.name for maker in makers]
        gone = self.kept.keys() - set(names)
        self.kept = {name: self.kept[name] for name in names}
        _write(self.path, fresh, gone)
        every = (made for each in self.kept.values() for made in each.made)
        return [made for made in every if not isinstance(made, Piece)]

    def _made_anew(self, book: Book, answers: Answers, common: bytes, makers: Iterable[Maker]) -> list[Kept]:
        """What some makers make that was not kept. Whatever they need is kept by now."""
        wanted: dict[str, tuple[Maker, bytes]] = {}
        for maker in makers:
            needed = (self.kept[name].stamp for name in maker.needs)
            given = digest(common, maker.given.encode(), *needed)
            if not _is_good(self.kept.get(maker.name), given, answers):
                wanted[maker.name] = (maker, given)
        work = [partial(_making, book, maker, self._pieces(maker)) for maker, _ in wanted.values()]
        fresh = []
        for name, asked, packed, stamp in all_made(work):
            made = pickle.loads(packed)
            fresh.append(Kept(name, wanted[name][1], asked, answers.to_all(asked), made, stamp, packed))
            self.kept[name] = replace(fresh[-1], packed=b"")
        return fresh

    def _pieces(self, maker: Maker) -> list[Any]:
        made = (made for name in maker.needs for made in self.kept[name].made)
        return [each.value for each in made if isinstance(each, Piece)]


def _making(book: Book, maker: Maker, pieces: list[Any]) -> Iterator[Making]:
    """Run a maker."""
    asked: set[Ask] = set()
    seen = watched(book, asked)
    made = tuple(maker.make(seen, pieces) if maker.needs else maker.make(seen))
    stamp = digest(*(pickle.dumps(each.value) for each in made if isinstance(each, Piece)))
    yield maker.name, tuple(sorted(asked, key=repr)), pickle.dumps(made, pickle.HIGHEST_PROTOCOL), stamp


def _is_good(kept: Kept | None, given: bytes, answers: Answers) -> bool:
    return kept is not None and kept.given == given and kept.answers == answers.to_all(kept.asked)


def _common(book: Book, audience: str) -> bytes:
    """What every page is made from beside what its maker looks up."""
    house = book.house.source.text.encode("utf-8", "surrogatepass")
    return digest(_program(), audience.encode(), str(book.priced).encode(), house)


@cache
def _program() -> bytes:
    """What stands for the program that makes pages: Python, every file of it, the libraries behind it."""
    package = Path(__file__).parents[1]
    files = sorted(path for path in package.rglob("*") if "__pycache__" not in path.parts)
    stamps = [(str(each), *stamp_of(each)) for each in files if each.is_file()]
    libraries = [version(name).encode() for name in LIBRARIES]
    return digest(sys.version.encode(), repr(stamps).encode("utf-8", "surrogateescape"), *libraries)


def _read(path: Path | None) -> Iterator[Kept]:
    """The rows of a database that can be trusted, and that are whole."""
    if path is None or not is_own(path):
        return
    with suppress(sqlite3.Error), closing(sqlite3.connect(path, timeout=WAIT)) as database:
        for name, given, asked, answers, packed, stamp, checked in database.execute(READ):
            # A row of another program may hold what this one has no class for: it is no row.
            with suppress(Exception):
                if _checked(name, given, asked, answers, packed, stamp) == checked:
                    yield Kept(name, given, pickle.loads(asked), answers, pickle.loads(packed), stamp)


def _checked(name: str, *parts: bytes) -> bytes:
    """What stands for a whole row."""
    return digest(name.encode(), *parts)


def _write(path: Path | None, fresh: Iterable[Kept], gone: Iterable[str]) -> None:
    """Write what is new, take out what is gone. What cannot be written is not kept."""
    rows = list(fresh)
    names = [(name,) for name in gone]
    if path is None or not (rows or names):
        return
    with suppress(sqlite3.Error, OSError):
        if not is_own(path):
            path.unlink(missing_ok=True)
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            path.touch(0o600)
        try:
            _write_rows(path, rows, names)
        except sqlite3.Error as error:
            if error.sqlite_errorcode != sqlite3.SQLITE_BUSY:  # damaged, or of another form: begin anew
                path.unlink()


def _write_rows(path: Path, rows: Sequence[Kept], gone: Sequence[tuple[str]]) -> None:
    with closing(sqlite3.connect(path, timeout=WAIT)) as database, database:
        database.execute("PRAGMA synchronous = OFF")  # each row is checked when it is read
        database.execute(TABLE)
        database.executemany("DELETE FROM page WHERE name = ?", gone)
        for each in rows:
            asked = pickle.dumps(each.asked)
            checked = _checked(each.name, each.given, asked, each.answers, each.packed, each.stamp)
            row = (each.name, each.given, asked, each.answers, each.packed, each.stamp, checked)
            database.execute(WRITE, row)
