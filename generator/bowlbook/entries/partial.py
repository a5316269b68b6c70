"""An entry with mistakes in it, as far as it can be read.

A field that could not be read raises `Unread` on access; everything else is as in a whole entry. So checks go
as far as the readable fields allow.
"""

from collections.abc import Collection, Set
from dataclasses import MISSING
from functools import cache
from types import NoneType
from typing import Any, get_args, get_origin

from bowlbook.entries.entry import Entry, Part, authored, is_part, yaml_key
from bowlbook.entries.reader import Wrong, field_reader
from bowlbook.reading.nearest import nearest
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc, Source

READ_IN_PART = "read_in_part"
"""Attribute of a part: what was read of its lists of single values, for linking only."""
NOT_READ_AT = "not_read_at"
"""Attribute of an entry: ways to values that count as not read, beside those that cannot be read."""


class Unread(Exception):
    """Raised on access to a value that could not be read from its file."""


class _NotRead:
    """Class attribute in place of a field: reached only where the object has no value of its own."""

    def __get__(self, made: Any, owner: Any) -> Any:
        raise Unread


@cache
def _class(cls: type[Part]) -> type[Part]:
    """The class of such entries: a subclass whose fields have no defaults."""
    # A dataclass keeps defaults as class attributes; a field that could not be read must not fall back on it.
    own: dict[str, Any] = {spec.name: _NotRead() for spec in authored(cls)}
    alone = {"__eq__": object.__eq__, "__hash__": object.__hash__}  # comparing would access what is not read
    methods = {"__repr__": object.__repr__, **alone}
    return type(cls.__name__, (cls,), {**own, **methods, "__module__": cls.__module__})


def is_partial(entry: Entry) -> bool:
    """Whether an entry was made by `read_partly`."""
    return READ_IN_PART in vars(entry)


def near_misses(cls: Any, given: Collection[str]) -> dict[str, str]:
    """Of each key that a part does not know: the nearest key that it knows, where that is not given."""
    known = [yaml_key(spec.name) for spec in authored(cls)]
    near = {key: nearest(key, known) for key in given if key not in known}
    return {key: name for key, name in near.items() if name is not None and name not in given}


def read_partly(cls: Any, entry_id: str, source: Source, faulty: Set[Loc] = frozenset()) -> Any:
    """An entry of this class with all that can be read of the source's data.

    ``faulty``: ways to values that count as not read, beside those of the source.
    """
    faulty = source.faulty | faulty
    made = _part(cls, source.data, faulty)
    made.__dict__[NOT_READ_AT] = faulty
    made.placed(entry_id, source)
    return made


def with_unread(entry: Entry, ways: Set[Loc]) -> Any:
    """The entry with these values, too, counting as not read: references that lead nowhere."""
    cls = type(entry).__mro__[1] if is_partial(entry) else type(entry)
    return read_partly(cls, entry.id, entry.source, vars(entry).get(NOT_READ_AT, frozenset()) | ways)


def _part(cls: Any, given: Any, faulty: Set[Loc]) -> Any:
    """A part of an entry. ``faulty``: ways that begin at this part, here and below."""
    made = _class(cls).__new__(_class(cls))
    values = made.__dict__
    values[READ_IN_PART] = {}
    if not isinstance(given, dict) or () in faulty:
        return made
    perhaps = set(near_misses(cls, given).values())
    below = _by_step(faulty)
    for spec in authored(cls):
        key = yaml_key(spec.name)
        if key not in given:
            if spec.default is not MISSING and key not in perhaps:
                values[spec.name] = spec.default
            continue
        inside = below.get(key, set())
        try:
            if inside:
                raise Wrong([])
            values[spec.name] = field_reader(spec.type)(given[key])
        except (Refusal, Wrong):
            if () not in inside:
                _salvage(made, spec, given[key], inside)
    return made


def _by_step(ways: Set[Loc]) -> dict[str | int, set[Loc]]:
    """Ways by their first step, each without it."""
    found: dict[str | int, set[Loc]] = {}
    for way in ways:
        if way:
            found.setdefault(way[0], set()).add(way[1:])
    return found


def _salvage(made: Any, spec: Any, value: Any, faulty: Set[Loc]) -> None:
    """Keep what is good in the value of a field: parts as parts, single values of a list for linking."""
    hint = spec.type
    inner = get_args(hint)
    if len(inner) == 2 and inner[1] is NoneType:
        hint = inner[0]
    if is_part(hint) and isinstance(value, dict):
        made.__dict__[spec.name] = _part(hint, value, faulty)
    elif get_origin(hint) is tuple and isinstance(value, list):
        below = _by_step(faulty)
        if is_part(inner[0]):
            parts = [_part(inner[0], each, below.get(index, set())) for index, each in enumerate(value)]
            made.__dict__[spec.name] = tuple(parts)
            return
        read = field_reader(inner[0])
        found: list[Any] = []
        for index, each in enumerate(value):
            try:
                found.append(None if index in below else read(each))
            except (Refusal, Wrong):
                found.append(None)
        made.__dict__[READ_IN_PART][spec.name] = tuple(found)
