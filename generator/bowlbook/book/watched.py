"""A book that notes what is asked of it: what was made from it is good while the answers stay the same."""

from collections.abc import ItemsView, Iterable, Iterator, KeysView, Mapping, ValuesView
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDER_OF, FOLDERS
from bowlbook.book.kept import digest
from bowlbook.entries.entry import Entry

Ask = tuple[str, Any]
"""A field of the book and the key that was looked up in it; `ALL` where it was gone through."""
ALL = ""
FIELDS = (*FOLDERS, "shared", "used_by")
"""What is watched. The house, and whether anything has a price, belong to whatever is made from a book."""


class _Noting(Mapping[Any, Any]):
    """A mapping without a way in that is not noted."""

    def __init__(self, name: str, inner: Mapping[Any, Any], asked: set[Ask]) -> None:
        self._name, self._inner, self._asked = name, inner, asked

    def _all(self) -> Mapping[Any, Any]:
        self._asked.add((self._name, ALL))
        return self._inner

    def __getitem__(self, key: Any) -> Any:
        self._asked.add((self._name, key))
        return self._inner[key]

    def __contains__(self, key: object) -> bool:
        self._asked.add((self._name, key))
        return key in self._inner

    def __iter__(self) -> Iterator[Any]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    def keys(self) -> KeysView[Any]:
        return self._all().keys()

    def values(self) -> ValuesView[Any]:
        return self._all().values()

    def items(self) -> ItemsView[Any, Any]:
        return self._all().items()


class _Watched(Book):
    """A book that does not go through its products to say whether one has a price."""

    __slots__ = ("known_priced",)
    known_priced: bool

    @property
    def priced(self) -> bool:
        return self.known_priced


def watched(book: Book, asked: set[Ask]) -> Book:
    """The same book, that notes in ``asked`` what is looked up in it. It shares what was worked out."""
    noting: dict[str, Any] = {name: _Noting(name, getattr(book, name), asked) for name in FIELDS}
    made = _Watched(house=book.house, whole=book.whole, **noting)
    object.__setattr__(made, "worked_out", book.worked_out)
    object.__setattr__(made, "known_priced", book.priced)
    return made


class Answers:
    """What a book answers to each ask, as a short digest: equal digests, equal answers.

    An entry is what its file says, and the file's stamp stands for that. A shared product carries none of
    its own where another stands in its place, and its text does.
    """

    def __init__(self, book: Book) -> None:
        self._fields: dict[str, Mapping[Any, Any]] = {name: getattr(book, name) for name in FIELDS}
        self._stamps = {
            (FOLDER_OF[kind], entry_id): stamp
            for (kind, entry_id), stamp in book.stamps.items()
            if kind in FOLDER_OF
        }
        self._known: dict[Ask, bytes] = {}

    def to(self, ask: Ask) -> bytes:
        """The digest of what the book answers to one ask."""
        if ask not in self._known:
            self._known[ask] = self._answer(*ask)
        return self._known[ask]

    def to_all(self, asks: Iterable[Ask]) -> bytes:
        """One digest for all of them, in their order."""
        return digest(b"".join(self.to(ask) for ask in asks))  # each as long as the others

    def _answer(self, name: str, key: Any) -> bytes:
        inner = self._fields[name]
        if key == ALL:
            return digest(*(self.to((name, each)) + repr(each).encode() for each in inner))
        stamp = self._stamps.get((name, key))
        if stamp and key in inner:  # the entry itself need not be unpacked
            return stamp
        found = inner.get(key)
        if isinstance(found, Entry):
            texts = (key, found.source.path, found.source.text)
            return digest(*(each.encode("utf-8", "surrogatepass") for each in texts))
        return repr(found).encode()
