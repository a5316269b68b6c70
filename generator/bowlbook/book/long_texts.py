"""An entry without its long texts (notes, advice, handout), which only its own page shows.

Pages of other entries are made from figures, names and reasons: an edit of a long text leaves those pages
as they are.
"""

import marshal
from collections.abc import Mapping
from dataclasses import fields
from functools import cache
from typing import Any, NamedTuple, TypeVar, cast, get_args

from bowlbook.cache.digest import WITHOUT_REFERENCES, digest_of
from bowlbook.cache.recording import Recorded
from bowlbook.entries.entry import Entry, Part, yaml_key
from bowlbook.entries.words import Markdown

E = TypeVar("E", bound=Entry)
WHOLE = "* whole "
"""Begins the key, and the entry's id ends it, under which it is recorded that an entry was taken whole."""


class Stamps(NamedTuple):
    """The digests of an entry's file, ``file``, and of the entry without its long texts, ``short``."""

    file: bytes
    short: bytes


@cache
def long_texts(cls: type[Part]) -> frozenset[str]:
    """The names of a class's fields of Markdown."""
    return frozenset(each.name for each in fields(cls) if Markdown in (each.type, *get_args(each.type)))


def without_long_texts(entry: E) -> E:
    """The entry without its long texts and its source: an error for who asks for one of them."""
    made = object.__new__(type(entry))
    left = vars(made)
    left.update(vars(entry))
    for name in ("source", *long_texts(cast(Any, type(entry)))):
        left.pop(name, None)
    return made


def short_digest(entry: Entry) -> bytes:
    """The digest of all that `without_long_texts` leaves: of the data in its file, without the long texts."""
    left_out = {yaml_key(name) for name in long_texts(cast(Any, type(entry)))}
    data = entry.source.data or {}
    left = [each for each in data.items() if each[0] not in left_out]
    return digest_of(entry.id, marshal.dumps(left, WITHOUT_REFERENCES))


def whole_at(entries: Mapping[str, E], entry_id: str) -> E:
    """The entry with its long texts and its source: for its own page, and its own checks.

    A recorded book gives entries without them, and records here that this one was taken whole.
    """
    if isinstance(entries, Recorded):
        return cast(E, entries.inner_for(f"{WHOLE}{entry_id}")[entry_id])
    return entries[entry_id]
