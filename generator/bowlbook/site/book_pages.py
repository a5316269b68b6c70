"""The pages and documents of a book: made once, and stored under everything they were made from.

What a maker looks up in the book is recorded while it runs (`bowlbook.book.recorded_book`), so a page is made
again exactly where one of its lookups finds something else today. Its head is small and always loaded; its
content only where somebody asks for it.
"""

import pickle
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, partial
from graphlib import TopologicalSorter
from typing import Any, NamedTuple

import deflate

from bowlbook.book.book import Book
from bowlbook.book.recorded_book import answers_of, given_of, recorded_book
from bowlbook.cache.cache import Cache, Made, Result, made_of
from bowlbook.cache.digest import digest_of
from bowlbook.cache.processes import FEWEST, all_made
from bowlbook.cache.recording import Answers, Lookup
from bowlbook.pages.maker import Maker
from bowlbook.pages.page import Document, Heading, Page, Piece
from bowlbook.pages.render import compile_templates
from bowlbook.pages.search_index import IndexEntry, indexed

HEAD, CONTENT, PIECE = "page", "page content", "piece"
"""Kinds of results in the cache; there is a kind of its own for the pieces of each name."""
MANY = 200
"""Pieces that are loaded all at once, rather than one by one: more than a deck of cards takes."""
QUICKLY = 1
"""libdeflate's level: HTML shrinks to a sixth."""


class PageHead(NamedTuple):
    """A page without its body. ``digest``: of the packed page, without ``search``; the rest as in `Page`."""

    address: str
    title: str
    description: str
    headings: tuple[Heading, ...]
    search: IndexEntry | None
    digest: bytes

    @property
    def path(self) -> str:
        """Its file, from the site's top."""
        return f"{self.address}index.html"


class DocumentHead(NamedTuple):
    """A file outside the theme. ``path`` from the site's top, and the digest of its packed text."""

    path: str
    digest: bytes


class _Heads(NamedTuple):
    """What one maker made, in its order, and the digest of each of its pieces."""

    heads: tuple[PageHead | DocumentHead, ...]
    pieces: dict[str, bytes]


class _Made(NamedTuple):
    """All that one maker made: the texts compressed, the pieces by their names, as they are stored."""

    heads: _Heads
    texts: tuple[bytes, ...]
    pieces: dict[str, Made]


class Finished(NamedTuple):
    """A page or document, whose text is loaded when it is asked for."""

    head: PageHead | DocumentHead
    job: "_Job"
    place: int

    @property
    def content(self) -> bytes:
        """The body of a page as HTML, or a document; UTF-8."""
        packed = self.job.contents.value[self.place]
        self.job.forget()
        return bytes(deflate.gzip_decompress(packed))


class _Job:
    """A maker, and what is stored of it. ``needs``: the makers of the pieces it takes, and their names."""

    def __init__(
        self,
        cache: Cache,
        name: str,
        common: bytes,
        answers: Answers,
        book: Book,
        maker: Maker,
        needs: list[tuple["_Job", str]],
    ) -> None:
        self.cache, self.name, self.book, self.maker, self.needs = cache, name, book, maker, needs
        self.pieces: dict[str, Result[Any]] = {}
        taken = b"".join(job.piece_digest(piece) for job, piece in needs)  # each of the same length
        inputs = digest_of(common, maker.digest, taken)
        self.head: Result[_Heads] = cache.recorded_result(HEAD, name, inputs, answers, self._heads)

    def _heads(self, lookups: set[Lookup]) -> _Heads:
        return self._made(lookups).heads

    @cached_property
    def contents(self) -> Result[tuple[bytes, ...]]:
        """Its texts: those that were made together with its head."""
        return self.cache.result(CONTENT, self.name, self._digest, lambda: self._made(set()).texts)

    def piece(self, name: str) -> Result[Any]:
        """A piece: that which was made together with its head."""
        if name not in self.pieces:
            again = partial(self._piece_again, name)
            self.pieces[name] = self.cache.result(f"{PIECE} {name}", self.name, self._digest, again)
        return self.pieces[name]

    def _piece_again(self, name: str) -> Any:
        """A piece that the cache has lost."""
        return pickle.loads(self._made(set()).pieces[name].value)

    def piece_digest(self, name: str) -> bytes:
        """The digest of a piece, which need not be loaded."""
        digests = self.head.value.pieces
        if name not in digests:
            raise ValueError(f"The maker {self.maker.name} makes no piece {name}: it makes {list(digests)}.")
        return digests[name]

    @property
    def _digest(self) -> bytes:
        assert self.head.digest is not None
        return self.head.digest

    def _made(self, lookups: set[Lookup]) -> _Made:
        """Run the maker."""
        book = recorded_book(self.book, lookups)
        if len(self.needs) > MANY:
            self.cache.load_all(*{f"{PIECE} {piece}" for _, piece in self.needs})
        made = list(self.maker.make(book, [job.piece(piece).value for job, piece in self.needs]))
        for job, _ in self.needs:
            if not job.needs:  # an entry's piece: what was put together from those is for hundreds of pages
                job.forget()
        pieces = {each.name: made_of(each.value) for each in made if isinstance(each, Piece)}
        whole = [_packed(each) for each in made if not isinstance(each, Piece)]
        digests = {name: piece.digest for name, piece in pieces.items()}
        heads = _Heads(tuple(head for head, _ in whole), digests)
        return _Made(heads, tuple(text for _, text in whole), pieces)

    def run(self) -> tuple[Made, Made, dict[str, Made]]:
        """Run the maker, in any process; what it made is for `keep`."""
        lookups: set[Lookup] = set()
        heads, texts, pieces = self._made(lookups)
        return made_of(heads, lookups), made_of(texts), pieces

    def keep(self, heads: Made, texts: Made, pieces: dict[str, Made]) -> None:
        """Store what `run` made."""
        self.head.keep(heads)
        self.contents.keep(texts)
        for name, piece in pieces.items():
            self.piece(name).keep(piece)
        self.forget()

    def forget(self) -> None:
        """Hold neither texts nor pieces, where they are stored and can be loaded again."""
        if self.cache.is_kept:
            self.pieces.clear()
            vars(self).pop("contents", None)

    def finished(self) -> Iterator[Finished]:
        """What it made."""
        for place, head in enumerate(self.head.value.heads):
            yield Finished(head, self, place)


def pages_of(cache: Cache, book: Book, audience: str, makers: Sequence[Maker]) -> list[Finished]:
    """All pages and documents that the makers make of this book, in their order; new ones are stored.

    Makers that put pieces together run after those of the pieces. Raises ValueError for two makers of one
    name, for two pages at one address, and for a piece that no maker makes: one of two would be lost.
    """
    jobs = _jobs_of(cache, book, audience, makers)
    made = [each for maker in makers for each in jobs[maker.name].finished()]
    if (path := _first_twice(each.head.path for each in made)) is not None:
        raise ValueError(f"Two makers make {path}: give one of the pages another address.")
    return made


def _first_twice(names: Iterable[str]) -> str | None:
    return next((name for name, count in Counter(names).items() if count > 1), None)


def _jobs_of(cache: Cache, book: Book, audience: str, makers: Sequence[Maker]) -> dict[str, _Job]:
    """The makers by name, each run where something it was made from has changed."""
    answers, common = answers_of(book), digest_of(given_of(book), audience)
    if (twice := _first_twice(maker.name for maker in makers)) is not None:
        raise ValueError(f"Two makers have the name {twice}: what one of them makes would be lost.")
    by_name = {maker.name: maker for maker in makers}
    for each in makers:
        for maker, piece in each.needs:
            if maker not in by_name:
                raise ValueError(
                    f"The maker {each.name} needs {maker}#{piece}, and there is no maker {maker}."
                )
    cache.load_all(HEAD)
    jobs: dict[str, _Job] = {}
    for names in _rounds(makers):
        for name in names:
            taken = [(jobs[maker], piece) for maker, piece in by_name[name].needs]
            jobs[name] = _Job(cache, f"{audience} {name}", common, answers, book, by_name[name], taken)
        todo = [jobs[name] for name in names if jobs[name].head.digest is None]
        if len(todo) >= FEWEST:  # each process would do it for itself
            compile_templates()
        for place, made in all_made([job.run for job in todo]):
            todo[place].keep(*made)
        for job in {of for each in todo for of, _ in each.needs}:
            job.forget()
        cache.save()
    return jobs


def _rounds(makers: Sequence[Maker]) -> list[list[str]]:
    """The makers' names, in their order, each after those of the pieces that it takes.

    Each a round before the last one that it may be in: beside what that waits for, other processes then have
    something to do.
    """
    needs = {each.name: {maker for maker, _ in each.needs} for each in makers}
    order = [*TopologicalSorter(needs).static_order()]
    first: dict[str, int] = {}
    for name in order:
        first[name] = max((first[each] + 1 for each in needs[name]), default=0)
    count = 1 + max(first.values(), default=-1)
    last = dict.fromkeys(order, count - 1)
    for name in reversed(order):
        for each in needs[name]:
            last[each] = min(last[each], last[name] - 1)
    rounds: list[list[str]] = [[] for _ in range(count)]
    for name in needs:
        rounds[max(first[name], last[name] - 1)].append(name)
    return rounds


def _packed(made: Page | Document) -> tuple[PageHead | DocumentHead, bytes]:
    text = (made.body if isinstance(made, Page) else made.text).encode()
    packed = bytes(deflate.gzip_compress(text, QUICKLY))
    if isinstance(made, Document):
        return DocumentHead(made.path, digest_of(packed)), packed
    shown = (made.address, made.title, made.description, made.headings)
    search = indexed(made.address, made.search) if made.search else None
    return PageHead(*shown, search, digest_of(packed, repr(shown))), packed
