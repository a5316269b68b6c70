"""Pages made before, kept for as long as the book answers what was asked for them as it did then.

Exact, or made anew: a kept page is used only where its maker was given the same, where the house, the
audience and every file of the program are the same, and where the book gives the same answer to each thing
that was looked up in it (`bowlbook.book.watched`). A cache that is damaged, foreign or locked is no cache.
"""

import pickle
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache, partial
from importlib.metadata import version
from pathlib import Path
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.kept import digest, stamp_of
from bowlbook.book.recorded_book import answers_of, recorded_book
from bowlbook.cache.recording import Answers, Lookup
from bowlbook.pages.all_pages import Maker
from bowlbook.pages.page import Piece
from bowlbook.site.kept_rows import KeptRows
from bowlbook.site.packed import Packed, Whole, packed
from bowlbook.site.processes import all_made, in_background

LIBRARIES = ("babel", "jinja2", "markdown", "markupsafe", "nh3", "segno")
"""What pages are made with, beside this program."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What one maker made: from what it was given, what it asked of the book, and what that answered.

    ``stamp`` stands for its pieces.
    """

    name: str
    given: bytes
    asked: tuple[Lookup, ...]
    answers: bytes
    made: tuple[Packed, ...]
    stamp: bytes


Making = tuple[str, tuple[Lookup, ...], bytes, bytes]
"""A maker's name, what it looked up, what it made, packed, and what stands for its pieces."""


class KeptPages:
    """The pages of one book for one audience. Without a path they are kept in memory alone."""

    def __init__(self, path: Path | None) -> None:
        self.rows = KeptRows(path)
        self.kept = {each.name: each for each in _read(self.rows)}
        self.written: Callable[[], object] = bool
        """Waits until what is new is written down."""

    def all_made(self, book: Book, audience: str, makers: Sequence[Maker]) -> list[Whole]:
        """All pages and documents that the makers make of this book, in their order.

        What is not kept is made and kept, which may go on until `written`. Makers that put pieces together
        come after those of the pieces.
        """
        answers, common = answers_of(book), _common(book, audience)
        fresh: list[tuple[str, bytes]] = []
        for needing in (False, True):
            fresh += self._made_anew(
                book, answers, common, [each for each in makers if bool(each.needs) == needing]
            )
        names = [maker.name for maker in makers]
        if fresh or len(self.kept) != len(names):
            self.written = in_background(partial(self.rows.write, fresh, names))
        self.kept = {name: self.kept[name] for name in names}
        every = (made for each in self.kept.values() for made in each.made)
        return [made for made in every if not isinstance(made, Piece)]

    def _made_anew(
        self, book: Book, answers: Answers, common: bytes, makers: Iterable[Maker]
    ) -> Iterator[tuple[str, bytes]]:
        """Make what was not kept; gives the rows to keep it. Whatever is needed for it is kept by now."""
        wanted: dict[str, tuple[Maker, bytes]] = {}
        for maker in makers:
            needed = b"".join(self.kept[name].stamp for name in maker.needs)
            given = digest(common, maker.given.encode(), needed)
            if not _is_good(self.kept.get(maker.name), given, answers):
                wanted[maker.name] = (maker, given)
        work = [partial(_making, book, maker, self._pieces(maker)) for maker, _ in wanted.values()]
        for name, asked, content, stamp in all_made(work):
            given, answered = wanted[name][1], answers.to_all(asked)
            self.kept[name] = Kept(name, given, asked, answered, pickle.loads(content), stamp)
            yield name, pickle.dumps((given, asked, answered, content, stamp), pickle.HIGHEST_PROTOCOL)

    def _pieces(self, maker: Maker) -> list[Any]:
        made = (made for name in maker.needs for made in self.kept[name].made)
        return [each.value for each in made if isinstance(each, Piece)]


def _making(book: Book, maker: Maker, pieces: list[Any]) -> Iterator[Making]:
    """Run a maker."""
    asked: set[Lookup] = set()
    seen = recorded_book(book, asked)
    made = tuple(map(packed, maker.make(seen, pieces) if maker.needs else maker.make(seen)))
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


def _read(rows: KeptRows) -> Iterator[Kept]:
    """The pages that are kept and whole."""
    for name, value in rows.every():
        # A row of another program may hold what this one has no class for: it is no row.
        with suppress(Exception):
            given, asked, answers, content, stamp = pickle.loads(value)
            yield Kept(name, given, asked, answers, pickle.loads(content), stamp)
