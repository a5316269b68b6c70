"""Entries by id, each loaded when somebody asks for it; its outline is at hand."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from bowlbook.book.outline import Outline, outline_of
from bowlbook.entries.entry import Entry


class LazyEntry:
    """An outline, and the entry itself: ``load`` is called once, when it is first asked for."""

    __slots__ = ("_entry", "_load", "outline")

    def __init__(self, outline: Outline, load: Callable[[], Entry]) -> None:
        self.outline = outline
        self._load = load
        self._entry: Entry | None = None

    @property
    def entry(self) -> Entry:
        """The entry, the same object each time."""
        if self._entry is None:
            self._entry = self._load()
        return self._entry


class LazyEntries(Mapping[str, Any]):
    """A mapping of ids to entries."""

    __slots__ = ("lazy",)

    def __init__(self, lazy: Mapping[str, LazyEntry]) -> None:
        self.lazy = lazy

    def __getitem__(self, entry_id: str) -> Any:
        return self.lazy[entry_id].entry

    def __contains__(self, entry_id: object) -> bool:
        return entry_id in self.lazy

    def __iter__(self) -> Iterator[str]:
        return iter(self.lazy)

    def __len__(self) -> int:
        return len(self.lazy)

    def __repr__(self) -> str:
        return repr(dict(self))

    def __reduce__(self) -> tuple[Any, ...]:
        return dict, (dict(self),)


def outlines_of(entries: Mapping[str, Entry]) -> dict[str, Outline]:
    """The outline of each entry, by id; made from the entry where it is not at hand."""
    if isinstance(entries, LazyEntries):
        return {entry_id: each.outline for entry_id, each in entries.lazy.items()}
    return {entry_id: outline_of(entry) for entry_id, entry in entries.items()}
