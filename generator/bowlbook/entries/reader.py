"""A file's mapping to a part or an entry: each field read as its type says, all mistakes found at once.

Each class has one reader, made from its fields on first use.
"""

from collections.abc import Callable
from dataclasses import MISSING, fields
from functools import cache
from types import NoneType
from typing import Any, NamedTuple, get_args, get_origin

from bowlbook.entries.entry import Part, Reads, authored, is_part, notes_in, yaml_key
from bowlbook.entries.words import Words
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc

Reader = Callable[[Any], Any]
"""Turns what the file holds into a value. Raises `Refusal` or `Wrong`."""


class Mistake(NamedTuple):
    """One thing wrong with a value, on the way to it. ``what`` is one of the words below.

    ``refusal``: ``given`` is the `Refusal` of a text. ``shape``: ``given`` is no ``wanted``. ``missing``,
    ``unknown``: the key at the end of the way. ``too short``, ``too long``: a list.
    """

    way: Loc
    what: str
    given: Any = None
    wanted: str = ""


class Wrong(Exception):
    """Everything that is wrong with one value."""

    def __init__(self, mistakes: list[Mistake]) -> None:
        super().__init__()
        self.mistakes = mistakes


def _mistakes(error: Refusal | Wrong, step: str | int) -> list[Mistake]:
    """What was wrong behind one key or at one place of a list."""
    if isinstance(error, Refusal):
        return [Mistake((step,), "refusal", error)]
    return [Mistake((step, *way), *rest) for way, *rest in error.mistakes]


class _Field(NamedTuple):
    """One field of a part: its key in the file, its name, whether it must be given, and what reads it."""

    key: str
    name: str
    must: bool
    read: Reader


@cache
def reader_of(cls: type[Part]) -> Reader:
    """What reads a mapping as this part, and raises `Wrong` with all its mistakes, in the fields' order."""
    # Callers cast the class to Any: mypy holds a class against Hashable by the hash of its instances.
    wanted = [
        _Field(yaml_key(spec.name), spec.name, spec.default is MISSING, field_reader(spec.type))
        for spec in authored(cls)
    ]
    by_key = {each.key: each for each in wanted}
    must = [each.name for each in wanted if each.must]
    defaults = {spec.name: spec.default for spec in fields(cls) if spec.default is not MISSING}

    def read(given: Any) -> Any:
        if not isinstance(given, dict):
            raise Wrong([Mistake((), "shape", given, "keys and values")])
        made = cls.__new__(cls)
        values = made.__dict__
        values.update(defaults)
        # First as if nothing were wrong; where something is, all fields are read again to find every mistake.
        try:
            for key, value in given.items():
                spec = by_key[key]
                values[spec.name] = spec.read(value)
        except (KeyError, Refusal, Wrong):
            raise Wrong(_all_wrong(given)) from None
        for name in must:
            if name not in values:
                raise Wrong(_all_wrong(given))
        try:
            made.__post_init__()
        except Refusal as refusal:
            raise Wrong([Mistake((), "refusal", refusal)]) from None
        return made

    def _all_wrong(given: dict[str, Any]) -> list[Mistake]:
        found: list[Mistake] = []
        for each in wanted:
            if each.key in given:
                try:
                    each.read(given[each.key])
                except (Refusal, Wrong) as error:
                    found += _mistakes(error, each.key)
            elif each.must:
                found.append(Mistake((each.key,), "missing"))
        return found + [Mistake((key,), "unknown") for key in given if key not in by_key]

    return read


@cache
def field_reader(hint: object) -> Reader:
    """What reads a value of this type. Raises TypeError for a type that no field has had so far."""
    for reads in notes_in(hint, Reads):
        return reads.value
    for words in notes_in(hint, Words):
        return _words(words)
    if is_part(hint):
        return reader_of(hint)
    inner = get_args(hint)
    if get_origin(hint) is tuple and inner[1:] == (...,):
        return _list_of(field_reader(inner[0]))
    if len(inner) == 2 and inner[1] is NoneType:
        return field_reader(inner[0])  # a key with nothing behind it is found before this
    raise TypeError(f"nothing reads {hint}")


def _list_of(read: Reader, at_least: int = 0, at_most: int | None = None) -> Reader:
    def read_list(given: Any) -> tuple[Any, ...]:
        if not isinstance(given, list):
            raise Wrong([Mistake((), "shape", given, "a list")])
        try:
            found = tuple([read(each) for each in given])
        except (Refusal, Wrong):
            raise Wrong(_all_wrong(given)) from None
        if len(found) < at_least or (at_most is not None and len(found) > at_most):
            raise Wrong(_all_wrong(given))
        return found

    def _all_wrong(given: list[Any]) -> list[Mistake]:
        """What is wrong with the values. The list's length is judged by its faultless values."""
        found: list[Mistake] = []
        good = 0
        for index, each in enumerate(given):
            try:
                read(each)
                good += 1
            except (Refusal, Wrong) as error:
                found += _mistakes(error, index)
            if at_most is not None and good > at_most:
                return [Mistake((), "too long")]
        return found if good >= at_least else [*found, Mistake((), "too short")]

    return read_list


def _words(words: Words) -> Reader:
    read_list = _list_of(words.one.value, words.FEWEST, words.MOST)

    def read(given: Any) -> tuple[str, ...]:
        return words.once(read_list(words.listed(given)))

    return read
