"""Authored fields that differ between two states of an entry; values that mean the same do not differ."""

from collections.abc import Iterable, Iterator
from dataclasses import Field, fields
from fractions import Fraction
from typing import Any, NamedTuple, get_args

from bowlbook.book.reference import references_in
from bowlbook.entries.blend import LightenerPart, TonerPart
from bowlbook.entries.entry import Entry, Reads, Ref, authored, is_part, notes_in, yaml_key
from bowlbook.figures.fact import Fact
from bowlbook.figures.rounding import fixed
from bowlbook.figures.unit import grams, millilitres
from bowlbook.reading.amount import Mass, Ratio, Volume, plain

NOT_SHOWN = ("reviewed", "formerly")
"""Fields about the writing, not about the bench."""

BOUGHT = ("pack", "net", "price", "priced_on", "currency")
"""A pack and fields of it: about buying, not about the scale."""

SHOWN_THOUGH_PRIVATE = ("price", "priced_on")
"""Private fields that are quoted all the same: whoever compares two books reads them in the entries."""

Renames = set[tuple[str, str, str]]
"""Kind, id before and id after of each renamed entry."""


class Terms(NamedTuple):
    """What two books are compared by: what was renamed, and how many decimals a price is shown with."""

    renamed: Renames
    decimals: int


def changed_fields(before: Entry, after: Entry, terms: Terms) -> Iterator[Fact]:
    """A fact for each field that differs, in the order of the class.

    Amounts are compared by value: ``1:2`` is ``2:4``, ``1 L`` is ``1000 mL``, parts 2 and 1 are 4 and 2.
    References are compared by the entry they lead to. The text of a private field is not quoted.
    """
    if type(before) is not type(after):
        yield Fact("kind", type(before).__name__.lower(), type(after).__name__.lower())
        return
    refs = _refs(type(after))
    for spec in authored(type(after)):
        if spec.name not in NOT_SHOWN:
            one, other = getattr(before, spec.name), getattr(after, spec.name)
            yield from _values(_words(spec), one, other, spec, refs.get(spec.name), terms)


def same(one: Any, other: Any, ref: Ref | None = None, renamed: Renames | None = None) -> bool:
    """Whether two values of one field mean the same. ``ref``: what kind of entry their text names, if any."""
    if one == other:
        return True
    if isinstance(one, str):
        return ref is not None and (ref.to, one, other) in (renamed or ())
    if isinstance(one, tuple) and isinstance(other, tuple):
        if len(one) != len(other):
            return False
        one, other = _in_proportion(one), _in_proportion(other)
        return all(same(left, right, ref, renamed) for left, right in zip(one, other, strict=True))
    if is_part(one) and type(one) is type(other):
        refs = _refs(type(one))
        return all(
            same(getattr(one, spec.name), getattr(other, spec.name), refs.get(spec.name), renamed)
            for spec in fields(one)
        )
    return _measure(one) == _measure(other)


def _refs(cls: Any) -> dict[str, Ref | None]:
    """The fields of the class of an entry or a part that name other entries, and what kind of entry."""
    return dict(references_in(cls))


def _in_proportion(values: tuple[Any, ...]) -> tuple[Any, ...]:
    """What shares a bowl by parts, with parts that add up to 1; any other values as they are."""
    if not values or not all(isinstance(each, LightenerPart | TonerPart) for each in values):
        return values
    total = sum((each.parts for each in values), Fraction(0))
    return tuple(type(each)(product=each.product, parts=each.parts / total) for each in values)


def _measure(value: object) -> object:
    """An amount as a pure number with its dimension; any other value as it is."""
    if isinstance(value, Ratio):
        return "ratio", value.value
    if isinstance(value, Mass):
        return "mass", grams(value)
    if isinstance(value, Volume):
        return "volume", millilitres(value)
    return value


def _values(
    what: str, one: Any, other: Any, spec: Field[Any], ref: Ref | None, terms: Terms
) -> Iterator[Fact]:
    """The facts of one field: of the parts in it one by one, where both sides have them."""
    if same(one, other, ref, terms.renamed):
        return
    if not _is_shown(spec):
        yield Fact(what, None, None)
    elif is_part(one) and type(one) is type(other):
        yield from _parts(what, one, other, terms)
    elif isinstance(one, tuple) and isinstance(other, tuple):
        yield from _lists(what, one, other, ref, terms)
    else:
        before, after = (_shown(each, spec, terms) for each in (one, other))
        yield Fact(what, before, after, spec.name in BOUGHT)


def _parts(what: str, one: Any, other: Any, terms: Terms) -> Iterator[Fact]:
    refs = _refs(type(one))
    for spec in fields(one):
        values = getattr(one, spec.name), getattr(other, spec.name)
        yield from _values(f"{what}, {_words(spec)}", *values, spec, refs.get(spec.name), terms)


def _lists(
    what: str, one: tuple[Any, ...], other: tuple[Any, ...], ref: Ref | None, terms: Terms
) -> Iterator[Fact]:
    """Two lists: item by item where they hold as many parts, else what was removed and what was added."""
    if len(one) == len(other) and all(map(is_part, (*one, *other))):
        for place, (before, after) in enumerate(zip(one, other, strict=True), 1):
            yield from _parts(f"{what} {place}", before, after, terms)
        return
    gone = [each for each in one if not any(same(each, now, ref, terms.renamed) for now in other)]
    come = [each for each in other if not any(same(was, each, ref, terms.renamed) for was in one)]
    yield from (Fact(what, value_text(each, terms), None) for each in gone)
    yield from (Fact(what, None, value_text(each, terms)) for each in come)
    if not gone and not come:
        yield Fact(f"{what}, order", value_text(one, terms), value_text(other, terms))


def _words(spec: Field[Any]) -> str:
    """A field's key in words."""
    return yaml_key(spec.name).replace("_", " ")


def _is_shown(spec: Field[Any]) -> bool:
    """Whether a field's value may be quoted."""
    return spec.metadata.get("public", False) or spec.name in SHOWN_THOUGH_PRIVATE


def value_text(value: Any, terms: Terms) -> str:
    """A value as its author would write it, its fields in words, without the private ones."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Fraction):
        return plain(value)
    if isinstance(value, tuple):
        return _joined(value_text(each, terms) for each in value)
    if is_part(value):
        given = [(spec, getattr(value, spec.name)) for spec in fields(value) if _is_shown(spec)]
        return _joined(
            f"{_words(spec)} {_shown(each, spec, terms)}" for spec, each in given if each not in (None, ())
        )
    return str(value)


def _joined(texts: Iterable[str]) -> str:
    """The texts with commas between. Only the last keeps the full stop of a sentence."""
    *front, last = [*texts] or [""]
    return ", ".join([*(each.removesuffix(".") for each in front), last])


def _unit(value: object, spec: Field[Any]) -> str:
    """The unit that a bare number of this field is written with, and a space before it; else nothing."""
    if isinstance(value, bool) or not isinstance(value, Fraction | int):
        return ""
    examples = [each for note in _notes(spec.type) for each in note.schema.get("examples", ())]
    _, space, unit = examples[0].partition(" ") if examples else ("", "", "")
    return space + (unit.removesuffix("s") if value == 1 else unit)


def _notes(hint: Any) -> list[Reads]:
    """What reads a field of this type."""
    return notes_in(hint, Reads) or [note for argument in get_args(hint) for note in _notes(argument)]


def _shown(value: Any, spec: Field[Any], terms: Terms) -> str | None:
    """A field's value as text; None where it is left out."""
    if value is None:
        return None
    if spec.name == "price":
        return _price(value, terms.decimals)
    return value_text(value, terms) + _unit(value, spec)


def _price(value: Fraction, decimals: int) -> str:
    """A price with its currency's decimals; with more where it is written with more."""
    return fixed(value, decimals) if (value * 10**decimals).denominator == 1 else plain(value)
