"""The cache of one book: results stored under the digest of everything that they were made from.

What a result was made from is either given, as the digest ``inputs``, or recorded while it was made: each
lookup in the book, by `bowlbook.cache.recording`. A result is used again only where both are what they were
and the program is the same. So no caller decides whether something is still good, and none can be stale.
"""

import pickle
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import Any, Generic, NamedTuple, TypeVar, cast

from bowlbook.cache.digest import SAFELY, digest_of, program_digest
from bowlbook.cache.place import store_path
from bowlbook.cache.recording import Answers, Lookup, packed_lookups, unpacked_lookups
from bowlbook.cache.store import Key, Row, Store, today

T = TypeVar("T")
Make = Callable[[set[Lookup]], T]
"""Makes a result, and adds what it looked up to the set that it is given."""
Report = Callable[[int, int], None]
MANY = 300
"""Groups of results, such as entries to read, for which other processes are worth their start."""
PORTION = 500
"""Results that are written to the store together, rather than held until all are made."""
Found = tuple[Row, bytes | None]
"""A stored row, with its value where that was loaded with it."""


class Made(NamedTuple):
    """A result that can be sent between processes: its value in bytes, their digest, and its lookups."""

    value: bytes
    digest: bytes
    lookups: bytes


class Result(Generic[T]):
    """One result: stored before, or made when its value is first asked for.

    Nothing of it is looked for before that.
    """

    __slots__ = (
        "_cache",
        "_digest",
        "_is_looked_up",
        "_key",
        "_make",
        "_packed",
        "_value",
        "answers",
        "inputs",
        "is_loaded",
    )

    def __init__(
        self, cache: "Cache", key: Key, inputs: bytes, answers: Answers | None, make: Callable[..., T]
    ) -> None:
        """``make`` records what it looks up (`Make`) where there are ``answers``."""
        self._cache, self._key, self._make = cache, key, make
        self.inputs, self.answers = inputs, answers
        self.is_loaded = self._is_looked_up = False
        self._value: Any = None
        self._digest: bytes | None = None
        self._packed: bytes | None = None

    @property
    def digest(self) -> bytes | None:
        """That of its value, known without loading it; None while it is neither stored nor made."""
        if not self._is_looked_up:
            self._digest, self._packed = self._cache.valid(self._key, self.inputs, self.answers)
            self._is_looked_up = True
        return self._digest

    @property
    def value(self) -> T:
        """The value, the same object each time."""
        if not self.is_loaded:
            digest = self.digest
            stored = None if digest is None else self._cache.loaded(self._key, digest, self._packed)
            self._packed = None
            if stored is None:
                self._value, lookups = self._made()
                if self._cache.is_kept:
                    self._keep(made_of(self._value, lookups))
            else:
                self._value = stored[0]
            self.is_loaded = True
        return cast(T, self._value)

    def make(self) -> Made:
        """Make the result, without keeping it: perhaps in another process, whose parent calls `keep`."""
        (self._value, lookups), self.is_loaded = self._made(), True
        return made_of(self._value, lookups)

    def keep(self, made: Made, *, load: bool = False) -> None:
        """Take over what `make` gave, here or in another process; ``load`` its value if wanted soon."""
        self._keep(made)
        if not self.is_loaded and (load or not self._cache.is_kept):  # else when it is asked for
            self._value, self.is_loaded = pickle.loads(made.value), True
        self._cache.save(PORTION)

    def _made(self) -> tuple[T, set[Lookup]]:
        lookups: set[Lookup] = set()
        return self._make() if self.answers is None else self._make(lookups), lookups

    def _keep(self, made: Made) -> None:
        self._cache.keep(self._key, self.inputs, self.answers, made)
        self._digest, self._is_looked_up = made.digest, True


class Cache:
    """The results of one book. Without a store nothing is kept, and everything is made.

    ``remembers``: it also holds the values in memory, for a process that builds many times. Nobody may change
    a value that it got.
    """

    def __init__(self, store: Store | None = None, *, remembers: bool = False) -> None:
        self._store, self._remembers = store, remembers
        self._values: dict[Key, tuple[bytes, Any]] = {}
        """Values in memory, each with its digest."""
        self._program = b"" if store is None else program_digest()
        self._today = today()
        self._found: dict[str, dict[str, Found]] = {}
        self._complete: set[str] = set()
        self._fresh: dict[Key, tuple[Row, bytes]] = {}
        self._used: set[Key] = set()

    def __enter__(self) -> "Cache":
        return self

    def __exit__(self, *exception: object) -> None:
        self.close()

    @property
    def is_kept(self) -> bool:
        """Whether anything is kept between runs."""
        return self._store is not None

    def get_or_make(self, kind: str, name: str, inputs: bytes, make: Callable[[], T]) -> T:
        """The result of this kind and name: the stored one where ``inputs`` is the same, else made and kept.

        One result is kept for each kind and name: the last one.
        """
        return self.result(kind, name, inputs, make).value

    def result(self, kind: str, name: str, inputs: bytes, make: Callable[[], T]) -> Result[T]:
        """As `get_or_make`, loaded or made when its value is asked for."""
        return Result(self, (kind, name), inputs, None, make)

    def recorded_result(
        self, kind: str, name: str, inputs: bytes, answers: Answers, make: Make[T]
    ) -> Result[T]:
        """The same for a result whose maker records its lookups, which ``answers`` answers today."""
        return Result(self, (kind, name), inputs, answers, make)

    def load_all(self, *kinds: str) -> None:
        """Load these kinds at once, with their values: for small ones, of which most are wanted."""
        if self._store is not None:
            for kind in kinds if not self._remembers else set(kinds) - self._complete:
                # What is kept and not yet saved is newer than what is stored.
                fresh = {name: (row, None) for (of, name), (row, _) in self._fresh.items() if of == kind}
                self._found[kind] = {**self._store.results(kind), **fresh}
                self._complete.add(kind)

    def valid(self, key: Key, inputs: bytes, answers: Answers | None) -> tuple[bytes | None, bytes | None]:
        """The digest of a stored value that was made from the same, and the value where it is at hand."""
        kind, name = key
        held = self._found.setdefault(kind, {})
        found = held.get(name)
        if found is None and self._store is not None and kind not in self._complete:
            found = self._store.result(kind, name)
        if found is None:
            return None, None
        row, value = found
        held[name] = row, None  # the result holds its value from now on
        try:
            if row.inputs != self._made_from(key, inputs, row.lookups, answers):
                return None, None
        except (ValueError, EOFError, TypeError):  # damaged lookups
            return None, None
        if row.used < self._today:
            self._used.add(key)
        return row.digest, value

    def loaded(self, key: Key, digest: bytes, packed: bytes | None) -> tuple[Any] | None:
        """The stored value of this digest, in a tuple; None where it is damaged. For `Result`."""
        known, value = self._values.get(key, (b"", None))
        if known == digest:
            return (value,)
        if key in self._fresh:
            packed = self._fresh[key][1]
        elif packed is None and self._store is not None:
            packed = self._store.value(*key)
        if packed is None or digest_of(packed) != digest:
            return None
        value = pickle.loads(packed)
        if self._remembers:
            self._values[key] = (digest, value)
        return (value,)

    def keep(self, key: Key, inputs: bytes, answers: Answers | None, made: Made) -> None:
        """Keep a result until `save`. For `Result`."""
        if self._store is not None:
            made_from = self._made_from(key, inputs, made.lookups, answers)
            row = Row(made_from, made.lookups, made.digest, self._today)
            self._found.setdefault(key[0], {})[key[1]] = (row, None)
            self._fresh[key] = (row, made.value)

    def save(self, fewest: int = 1) -> None:
        """Write what is new, in one transaction, where it is at least so many results."""
        if self._store is not None and len(self._fresh) + len(self._used) >= fewest:
            self._store.write(self._fresh, self._used)
            for kind, name in () if self._remembers else self._fresh:  # the store has them now
                self._found[kind].pop(name, None)
                self._complete.discard(kind)
            self._fresh, self._used = {}, set()
        self._today = today()

    def close(self) -> None:
        """Save, and close the store."""
        self.save()
        if self._store is not None:
            self._store.close()

    def _made_from(self, key: Key, inputs: bytes, lookups: bytes, answers: Answers | None) -> bytes:
        """All that a result was made from, the program too. Raises for damaged lookups."""
        kind, name = key
        # The name too: a damaged store may give the row of another.
        given = b"\0".join((self._program, kind.encode(), name.encode(*SAFELY), inputs))
        return given if answers is None else digest_of(given, answers.to_all(unpacked_lookups(lookups)))


def open_cache(book: Path, *, remembers: bool = False) -> Cache:
    """The cache of a book's folder; one that keeps nothing where the user wants none."""
    path = store_path(book)
    return Cache() if path is None else Cache(Store(path), remembers=remembers)


def make_together(groups: Sequence[Sequence[Result[Any]]], report: Report | None = None) -> None:
    """Make and keep many results in several processes, each group in one of them; leave few as they are.

    ``report`` is called with how many groups of how many have been begun.
    """
    if len(groups) < MANY:
        return
    from bowlbook.cache.processes import all_made, processes_at_hand  # only for a first run, or a new house

    processes = processes_at_hand()
    if processes == 1:
        return

    def make(number: int) -> list[Made]:
        if report is not None:
            report(number + 1, len(groups))
        return [each.make() for each in groups[number]]

    for number, made in all_made([partial(make, number) for number in range(len(groups))], processes):
        for result, each in zip(groups[number], made, strict=True):
            result.keep(each, load=True)  # or each process of the next work would load it for itself


def made_of(value: object, lookups: Iterable[Lookup] = ()) -> Made:
    """A value as it is stored, and what was looked up for it."""
    packed = pickle.dumps(value, pickle.HIGHEST_PROTOCOL)
    return Made(packed, digest_of(packed), packed_lookups(lookups))
