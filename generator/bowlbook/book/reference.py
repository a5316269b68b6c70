"""Every reference that an entry makes to another, found from the types of its fields."""

from functools import cache
from typing import Any, NamedTuple, cast, get_args

from bowlbook.entries.entry import Entry, Part, Ref, authored, parts_in, yaml_key
from bowlbook.entries.partial import READ_IN_PART
from bowlbook.reading.source import Loc


class Reference(NamedTuple):
    """One mention of another entry: the way to it, what it must be, and the id that is written."""

    loc: Loc
    ref: Ref
    id: str


@cache
def references_in(cls: type[Part]) -> tuple[tuple[str, Ref | None], ...]:
    """The fields of a class that hold references, or parts with such fields: (field, Ref or None)."""
    found: list[tuple[str, Ref | None]] = []
    for spec in authored(cls):
        ref = _ref_in(spec.type)
        if ref is not None or any(references_in(cast(Any, inner)) for inner in parts_in(spec.type)):
            found.append((spec.name, ref))
    return tuple(found)


def _ref_in(hint: Any) -> Ref | None:
    """The mark in a type, at any depth: the arguments of an annotated type are its marks too."""
    return hint if isinstance(hint, Ref) else next(filter(None, map(_ref_in, get_args(hint))), None)


def references(entry: Entry) -> list[Reference]:
    """Every reference in an entry, in the order of its fields; of a partial one, those that could be read."""
    found: list[Reference] = []
    _add_from(entry, (), found)
    return found


def _add_from(holder: Any, loc: Loc, found: list[Reference]) -> None:
    read = vars(holder)
    for name, ref in references_in(cast(Any, type(holder))):
        value = read.get(name)
        if value is None and READ_IN_PART in read:
            value = read[READ_IN_PART].get(name)
        if not value:
            continue
        way = (*loc, yaml_key(name))
        items = enumerate(value) if isinstance(value, tuple) else [(None, value)]
        for index, item in items:
            at = way if index is None else (*way, index)
            if ref is None and item is not None:
                _add_from(item, at, found)
            elif ref is not None and isinstance(item, str):
                found.append(Reference(at, ref, item))
