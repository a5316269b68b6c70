"""Lookups recorded while a result is made, and held against what would be found today."""

import marshal
from collections.abc import Callable, ItemsView, Iterable, Iterator, KeysView, Mapping, ValuesView
from typing import Any, TypeVar

K = TypeVar("K", bound="str | tuple[str, ...]")
V = TypeVar("V")
Lookup = tuple[str, "str | tuple[str, ...]"]
"""A field, and the key that was looked up in it; `ALL` where its keys were iterated over or counted,
`ANY` where it was only asked whether it has one."""
ALL, ANY = "*", "* any"


class Recorded(Mapping[K, V]):
    """A mapping that records every lookup: no method answers without recording what was asked.

    ``part_of``: what is given of each value; left out, all of it.
    """

    def __init__(
        self,
        field: str,
        inner: Mapping[K, V],
        lookups: set[Lookup],
        part_of: Callable[[V], V] = lambda value: value,
    ) -> None:
        self._field, self._inner, self._lookups = field, inner, lookups
        self._part_of = part_of
        self._given: dict[K, V] = {}

    def __getitem__(self, key: K) -> V:
        if key not in self._given:
            self._lookups.add((self._field, key))
            self._given[key] = self._part_of(self._inner[key])
        return self._given[key]

    def __contains__(self, key: Any) -> bool:
        self._lookups.add((self._field, key))
        return key in self._inner

    def __iter__(self) -> Iterator[K]:
        return iter(self.keys())

    def __len__(self) -> int:
        return len(self.keys())

    def __bool__(self) -> bool:
        return bool(self.inner_for(ANY))

    def keys(self) -> KeysView[K]:
        """The keys."""
        return self.inner_for(ALL).keys()

    def values(self) -> ValuesView[V]:
        """The values."""
        return self._all().values()

    def items(self) -> ItemsView[K, V]:
        """Keys with their values."""
        return self._all().items()

    def inner_for(self, part: str) -> Mapping[K, V]:
        """The mapping itself, for a caller that looks at nothing else than this part of it.

        ``part``: the key of that lookup, which an `Answers` of the mapping must know.
        """
        self._lookups.add((self._field, part))
        return self._inner

    def _all(self) -> dict[K, V]:
        found, given = self.inner_for(ALL).items(), self._given
        return {key: given.get(key) or given.setdefault(key, self._part_of(value)) for key, value in found}


class Answers(dict[Lookup, bytes]):
    """The digest of what each lookup finds today, worked out once. Equal digests: equal answers.

    ``find`` gives the digest of one lookup, as `digest_of` makes it; never called twice with the same.
    """

    def __init__(self, find: Callable[[Lookup], bytes]) -> None:
        self._find = find

    def __missing__(self, lookup: Lookup) -> bytes:
        self[lookup] = found = self._find(lookup)
        return found

    def to_all(self, lookups: Iterable[Lookup]) -> bytes:
        """Those of all, in their order: each of the same length."""
        return b"".join(map(self.__getitem__, lookups))


def packed_lookups(lookups: Iterable[Lookup]) -> bytes:
    """Lookups as they are stored, in the given order, which `Answers.to_all` keeps."""
    return marshal.dumps(tuple(lookups))


def unpacked_lookups(packed: bytes) -> tuple[Lookup, ...]:
    """Stored lookups. Raises ValueError, EOFError or TypeError for bytes that hold none."""
    found = marshal.loads(packed)
    if not isinstance(found, tuple) or any(type(each) is not tuple or len(each) != 2 for each in found):
        raise TypeError
    return found
