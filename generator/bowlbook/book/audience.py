"""The two copies of a book: the team's, with everything, and the public's, with what is said to be public."""

from dataclasses import MISSING, replace
from functools import cache
from typing import Any, cast

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDERS
from bowlbook.entries.entry import Entry, Part, authored, is_part

AUDIENCES = ("team", "public")


def copy_for(book: Book, audience: str) -> Book:
    """The book as an audience may have it.

    For the public every field is left out that its class does not say is public, at any depth: prices,
    suppliers, staff names, private notes, and any field that is added later and not declared. What would be
    worked out of them (costs) is then not there to be shown. A picture is left out unless it says that it is
    public.
    """
    if audience == "team":
        return book
    house = _public(book.house)
    kinds: dict[str, Any] = {
        name: {entry_id: _public(entry) for entry_id, entry in getattr(book, name).items()}
        for name in FOLDERS
    }
    return replace(book, house=house, shared={}, **kinds)


def _public(part: Any) -> Any:
    """A part or an entry with every private field emptied, and every part in it likewise."""
    values: dict[str, Any] = {}
    for name, public, empty in _fields_of(cast(Any, type(part))):
        value = getattr(part, name)
        values[name] = _inside(value) if public else empty
    made = type(part)(**values)
    if isinstance(part, Entry):
        made.placed(part.id, part.source)
    return made


def _inside(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(_inside(each) for each in value if getattr(each, "is_public", True))
    return _public(value) if is_part(value) else value


@cache
def _fields_of(cls: type[Part]) -> tuple[tuple[str, bool, object], ...]:
    """Of each authored field: its name, whether it is public, and what stands in its place if it is not."""
    found = []
    for spec in authored(cls):
        public = bool(spec.metadata.get("public", False))
        empty: Any = spec.default
        if not public and spec.default is MISSING:
            if not _is_text(spec.type):
                raise TypeError(f"{cls.__name__}.{spec.name} is private and must have a default")
            empty = ""
        found.append((spec.name, public, empty))
    return tuple(found)


def _is_text(hint: Any) -> bool:
    return hint is str or getattr(hint, "__origin__", None) is str
