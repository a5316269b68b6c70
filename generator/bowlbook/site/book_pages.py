"""The pages and documents of a book: made once, and stored under everything they were made from.

What a maker looks up in the book is recorded while it runs (`bowlbook.book.recorded_book`), so a page is made
again exactly where one of its lookups finds something else today. Its head is small and always loaded; its
content only where somebody asks for it.
"""

import pickle
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.recorded_book import answers_of, given_of, recorded_book
from bowlbook.cache.cache import Cache, Made, Result, made_of
from bowlbook.cache.digest import digest_of
from bowlbook.cache.recording import Answers, Lookup
from bowlbook.pages.maker import Maker
from bowlbook.pages.page import Document, Heading, Page, Piece, SearchEntry
from bowlbook.site.processes import all_made

HEAD, CONTENT = "page", "page content"
"""Kinds of results in the cache."""
QUICKLY = 1
"""zlib's level: HTML shrinks to a sixth."""


@dataclass(frozen=True, slots=True)
class PageHead:
    """A page without its body, and the digest of that; the rest as in `Page`."""

    address: str
    title: str
    description: str
    headings: tuple[Heading, ...]
    search: SearchEntry | None
    digest: bytes


@dataclass(frozen=True, slots=True)
class DocumentHead:
    """A file outside the theme. ``path`` from the site's top, and the digest of its text."""

    path: str
    digest: bytes


class _Heads(NamedTuple):
    """What one maker made, in its order, and the digest of its pieces."""

    heads: tuple[PageHead | DocumentHead, ...]
    pieces: bytes


class _Contents(NamedTuple):
    """The texts of what one maker made, compressed, and its pieces."""

    texts: tuple[bytes, ...]
    pieces: tuple[Any, ...]


class Finished(NamedTuple):
    """A page or document, whose text is loaded when it is asked for."""

    head: PageHead | DocumentHead
    contents: Result[_Contents]
    place: int

    @property
    def content(self) -> bytes:
        """The body of a page as HTML, or a document; UTF-8."""
        return zlib.decompress(self.contents.value.texts[self.place])


class _Job:
    """A maker, and what is stored of it."""

    def __init__(
        self,
        cache: Cache,
        name: str,
        inputs: bytes,
        answers: Answers,
        book: Book,
        maker: Maker,
        needs: list["_Job"],
    ) -> None:
        self.cache, self.name, self.book, self.maker, self.needs = cache, name, book, maker, needs
        self.head: Result[_Heads] = cache.recorded_result(HEAD, name, inputs, answers, self._heads)

    def _heads(self, lookups: set[Lookup]) -> _Heads:
        return self._made(lookups)[0]

    @cached_property
    def contents(self) -> Result[_Contents]:
        """Its texts and pieces: those that were made together with its head."""
        assert self.head.digest is not None
        return self.cache.result(CONTENT, self.name, self.head.digest, lambda: self._made(set())[1])

    def _made(self, lookups: set[Lookup]) -> tuple[_Heads, _Contents]:
        """Run the maker."""
        book = recorded_book(self.book, lookups)
        pieces = [piece for job in self.needs for piece in job.contents.value.pieces]
        made = list(self.maker.make(book, pieces))
        own = tuple(each.value for each in made if isinstance(each, Piece))
        whole = [_packed(each) for each in made if not isinstance(each, Piece)]
        heads = _Heads(tuple(head for head, _ in whole), digest_of(pickle.dumps(own)))
        return heads, _Contents(tuple(text for _, text in whole), own)

    def run(self) -> Iterator[tuple[Made, Made]]:
        """Run the maker, in any process; what it made is for `keep`."""
        lookups: set[Lookup] = set()
        heads, contents = self._made(lookups)
        yield made_of(heads, lookups), made_of(contents)

    def keep(self, heads: Made, contents: Made) -> None:
        """Store what `run` made."""
        self.head.keep(heads)
        self.contents.keep(contents)

    def finished(self) -> Iterator[Finished]:
        """What it made."""
        contents = self.contents
        for place, head in enumerate(self.head.value.heads):
            yield Finished(head, contents, place)


def pages_of(cache: Cache, book: Book, audience: str, makers: Sequence[Maker]) -> list[Finished]:
    """All pages and documents that the makers make of this book, in their order; new ones are stored.

    Makers that put pieces together run after those of the pieces.
    """
    answers, common = answers_of(book), digest_of(given_of(book), audience)
    cache.load_all(HEAD)
    cache.load_rows(CONTENT)
    jobs: dict[str, _Job] = {}
    for needing in (False, True):
        todo = []
        for maker in makers:
            if bool(maker.needs) != needing:
                continue
            needs = [jobs[name] for name in maker.needs]
            inputs = digest_of(common, maker.digest, *(each.head.value.pieces for each in needs))
            name = f"{audience} {maker.name}"
            job = jobs[maker.name] = _Job(cache, name, inputs, answers, book, maker, needs)
            if job.head.digest is None:
                todo.append(job)
        for job, made in zip(todo, all_made([job.run for job in todo]), strict=True):
            job.keep(*made)
    cache.save()
    return [each for maker in makers for each in jobs[maker.name].finished()]


def _packed(made: Page | Document) -> tuple[PageHead | DocumentHead, bytes]:
    text = (made.body if isinstance(made, Page) else made.text).encode()
    digest = digest_of(text)
    packed = zlib.compress(text, QUICKLY)
    if isinstance(made, Document):
        return DocumentHead(made.path, digest), packed
    return PageHead(made.address, made.title, made.description, made.headings, made.search, digest), packed
