"""Entries at hand or packed: a mapping of ids to entries that unpacks one when somebody asks for it."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from bowlbook.book.outline import Outline, outline_of
from bowlbook.entries.entry import Entry


class Held:
    """An entry with its outline. ``unpack`` makes the entry, once, where only the outline is at hand."""

    __slots__ = ("_entry", "_unpack", "outline")

    def __init__(self, outline: Outline, unpack: Callable[[], Entry]) -> None:
        self.outline = outline
        self._unpack: Callable[[], Entry] | None = unpack
        self._entry: Entry | None = None

    def entry(self) -> Entry:
        """The entry itself, the same one each time."""
        if self._entry is None:
            assert self._unpack is not None
            self._entry, self._unpack = self._unpack(), None
        return self._entry


class Entries(Mapping[str, Any]):
    """Entries by id, each unpacked when it is asked for."""

    __slots__ = ("held",)

    def __init__(self, held: Mapping[str, Held]) -> None:
        self.held = held

    def __getitem__(self, entry_id: str) -> Any:
        return self.held[entry_id].entry()

    def __contains__(self, entry_id: object) -> bool:
        return entry_id in self.held

    def __iter__(self) -> Iterator[str]:
        return iter(self.held)

    def __len__(self) -> int:
        return len(self.held)

    def __repr__(self) -> str:
        return repr(dict(self))

    def __reduce__(self) -> tuple[Any, ...]:
        return dict, (dict(self),)


class Part(Mapping[str, Any]):
    """Some of the entries of a mapping: gone through, it shows these; looked up, also some others."""

    __slots__ = ("_beside", "_entries", "_shown")

    def __init__(self, entries: Mapping[str, Any], shown: Iterable[str], beside: Iterable[str]) -> None:
        self._entries = entries
        self._shown = sorted(shown)
        self._beside = {*self._shown, *beside}

    def __getitem__(self, entry_id: str) -> Any:
        if entry_id not in self._beside:
            raise KeyError(entry_id)
        return self._entries[entry_id]

    def __contains__(self, entry_id: object) -> bool:
        return entry_id in self._beside and entry_id in self._entries

    def __iter__(self) -> Iterator[str]:
        return iter(self._shown)

    def __len__(self) -> int:
        return len(self._shown)


def outlines_of(entries: Mapping[str, Entry]) -> dict[str, Outline]:
    """The outline of each entry, by id; worked out where it is not at hand."""
    if isinstance(entries, Entries):
        return {entry_id: each.outline for entry_id, each in entries.held.items()}
    return {entry_id: outline_of(entry) for entry_id, entry in entries.items()}
