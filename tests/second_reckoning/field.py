"""Fields of two entries compared by value, from the documented rules alone."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from tests.second_reckoning.books import Entry
from tests.second_reckoning.reckoning import GRAMS, MILLILITRES

FIELDS = {
    "house": "title currency locale notice batches scale_step rounding_tolerance largest_batch "
    "on_scalp_developer_limit review_after hair_amounts waste_allowance any_batch",
    "products": "name kind pack form strength lifts mixing_ratio placement developer_limit volume peroxide "
    "does dose tone density",
    "blends": "name lighteners toners developer additives batches fresh_for suits cautions",
    "techniques": "name placement section_pattern bowls steps processing supplies suits cautions",
    "situations": "name hair take advice",
    "classes": "name outcomes learners duration outline demonstrations for_each_learner handout",
}
"""The fields of the random books that are compared, in the order of *Keeping the book*."""


LEFT_OUT = {"any_batch": "no"}
"""What a field counts as where it is left out."""


def value_of(value: Any) -> Any:
    """A value to compare: amounts in one unit, ratios as numbers, everything else as it is."""
    if isinstance(value, dict):
        return {key: value_of(each) for key, each in value.items()}
    if isinstance(value, list):
        return [value_of(each) for each in value]
    left, colon, right = value.partition(":")
    try:
        if colon:
            return Fraction(right) / Fraction(left)
        number, _, unit = value.partition(" ")
        for units, name in ((GRAMS, "g"), (MILLILITRES, "mL")):
            if unit in units:
                return Fraction(number) * units[unit], name
        return Fraction(number), unit
    except ValueError:
        return value


def in_words(value: Any) -> str | None:
    """A value as it is written in a list of changes."""
    if value is None:
        return None
    if isinstance(value, dict):
        texts = [f"{key.replace('_', ' ')} {in_words(each)}" for key, each in value.items()]
    elif isinstance(value, list):
        texts = [str(in_words(each)) for each in value]
    else:
        return str(value)
    *front, last = texts
    return ", ".join([*(each.rstrip(".") for each in front), last])


def shares(parts: list[Entry]) -> list[tuple[str, Fraction]]:
    """Products with their share of the whole."""
    whole = sum(Fraction(each["parts"]) for each in parts)
    return [(each["product"], Fraction(each["parts"]) / whole) for each in parts]


def changed_value(label: str, old: Any, new: Any) -> Iterator[tuple[str, str | None, str | None]]:
    """What differs between two values of a field."""
    if value_of(old or "") == value_of(new or ""):
        return
    if isinstance(old, dict) and isinstance(new, dict):
        for key in [*new, *(each for each in old if each not in new)]:
            yield from changed_value(f"{label}, {key.replace('_', ' ')}", old.get(key), new.get(key))
    elif isinstance(old or new, list):
        yield from changed_list(label, old or [], new or [])
    else:
        yield label, in_words(old), in_words(new)


def changed_list(label: str, old: list[Any], new: list[Any]) -> Iterator[tuple[str, str | None, str | None]]:
    """What differs between two lists: item by item, or what was removed and added."""
    if len(old) == len(new) and isinstance(old[0], dict):
        if "parts" in old[0] and shares(old) == shares(new):
            return
        for at, (before, after) in enumerate(zip(old, new, strict=True), 1):
            yield from changed_value(f"{label} {at}", before, after)
        return
    for each in old:
        if value_of(each) not in map(value_of, new):
            yield label, in_words(each), None
    for each in new:
        if value_of(each) not in map(value_of, old):
            yield label, None, in_words(each)


def changed_fields(kind: str, old: Entry, new: Entry) -> Iterator[tuple[str, str | None, str | None]]:
    """What differs between two entries, field by field."""
    for name in FIELDS[kind].split():
        values = [entry.get(name, LEFT_OUT.get(name)) for entry in (old, new)]
        yield from changed_value(name.replace("_", " "), *values)
