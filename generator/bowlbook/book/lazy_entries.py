"""Entries by id, each loaded when somebody asks for it; its outline is at hand."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from bowlbook.book.outline import Outline, outline_of
from bowlbook.cache.recording import Recorded
from bowlbook.entries.entry import Entry

OUTLINES = "* outlines"
"""The key under which it is recorded that somebody looked at the outlines of a mapping's entries alone; with
the id of one of them after it, at that one's."""


class LazyEntry:
    """An outline, and the entry itself, or what loads it: called once, when it is first asked for."""

    __slots__ = ("held", "outline")

    def __init__(self, outline: Outline, held: Entry | Callable[[], Entry]) -> None:
        self.outline, self.held = outline, held

    @property
    def entry(self) -> Entry:
        """The entry, the same object each time."""
        if not isinstance(self.held, Entry):
            self.held = self.held()
        return self.held


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
    """The outline of each entry, by id; made from the entry where it is not at hand.

    Recorded as a lookup of the outlines: whatever else an edit changes in an entry, the answer is the same.
    """
    if isinstance(entries, Recorded):
        return outlines_of(entries.inner_for(OUTLINES))
    if isinstance(entries, LazyEntries):
        return {entry_id: each.outline for entry_id, each in entries.lazy.items()}
    return {entry_id: outline_of(entry) for entry_id, entry in entries.items()}


def outline_at(entries: Mapping[str, Entry], entry_id: str) -> Outline:
    """The outline of one entry, as `outlines_of` gives it. KeyError where there is no such entry."""
    if isinstance(entries, Recorded):
        return outline_at(entries.inner_for(f"{OUTLINES} {entry_id}"), entry_id)
    if isinstance(entries, LazyEntries):
        return entries.lazy[entry_id].outline
    return outline_of(entries[entry_id])
