"""Which entries of a book are in use: all but the retired ones."""

from collections.abc import Mapping
from typing import Any, TypeVar

from bowlbook.book.lazy_entries import outlines_of
from bowlbook.entries.retired import AnyRetired

E = TypeVar("E")


def is_retired(entry: Any) -> bool:
    """Whether an entry is retired. One whose ``retired`` could not be read counts as in use."""
    return retired_of(entry) is not None


def retired_of(entry: Any) -> AnyRetired | None:
    """Since when and why an entry is retired; None for one in use, or where this could not be read."""
    found: AnyRetired | None = vars(entry).get("retired")
    return found


def current(entries: Mapping[str, E]) -> dict[str, E]:
    """The entries in use, by id, in the order of the mapping."""
    return {entry_id: entry for entry_id, entry in entries.items() if not is_retired(entry)}


def current_ids(entries: Mapping[str, Any]) -> list[str]:
    """The ids of the entries in use, in order; an entry whose outline is at hand is not loaded."""
    return [entry_id for entry_id, outline in outlines_of(entries).items() if not outline.retired]


def ids_by_name(entries: Mapping[str, Any]) -> list[str]:
    """The ids of the entries in use, by name without regard to case, then by id; none has to be loaded."""
    used = {entry_id: each for entry_id, each in outlines_of(entries).items() if not each.retired}
    return sorted(used, key=lambda entry_id: (used[entry_id].name.casefold(), entry_id))
