"""The whole book as one JSON document, and the JSON Schema of it."""

from collections.abc import Iterator
from contextlib import suppress
from fractions import Fraction
from itertools import product
from typing import Any

from bowlbook.book.audience import copy_for
from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDERS
from bowlbook.entries.entry import Entry, authored, notes_in, parts_in, yaml_key
from bowlbook.entries.schema import schema_of, sides_of
from bowlbook.entries.validate import ENTRY_CLASSES, private_keys
from bowlbook.entries.words import Words
from bowlbook.figures.bowl import Bowl, CannotWeigh, Mixer, developers_of, ladder_of
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.formatting.order import keys_in_order
from bowlbook.reading.amount import plain

FORMAT, VERSION = "bowlbook-book", 1
"""What the document calls itself. The version grows with every change that a reader of it must know."""


def book_data(book: Book, *, private: bool) -> dict[str, Any]:
    """The book: the house, every entry by kind as it was written, and every bowl of every blend's sizes."""
    seen = book if private else copy_for(book, "public")
    return {
        "format": FORMAT,
        "version": VERSION,
        "house": data_of(book.house, private=private),
        **{
            folder: [data_of(entry, private=private) for entry in book.of_kind(kind).values()]
            for folder, kind in FOLDERS.items()
        },
        "bowls": [each for blend in seen.blends for each in _bowls(seen, blend, private=private)],
    }


def data_of(entry: Entry, *, private: bool) -> dict[str, Any]:
    """The entry's data, its id first. ``private``: also what a public copy may not have."""
    assert entry.source.data is not None
    return {"id": entry.id, **part_data(entry.source.data, type(entry), private=private)}


def part_data(data: dict[str, Any], cls: type[Any], *, private: bool) -> dict[str, Any]:
    """The data of a part as its class declares it."""
    public = {yaml_key(spec.name): spec.metadata.get("public", False) for spec in authored(cls)}
    return {
        key: _value(data[key], hint, private=private)
        for key, hint in keys_in_order(cls).items()
        if key in data and (private or public[key])
    }


def _value(value: Any, hint: Any, *, private: bool) -> Any:
    inner = parts_in(hint)
    if isinstance(value, dict) and inner:
        return part_data(value, inner[0], private=private)
    if isinstance(value, list):
        return [
            each.strip() if isinstance(each, str) else _value(each, hint, private=private) for each in value
        ]
    if notes_in(hint, Words):
        return [value]  # one word alone is a list of one
    return value.strip()


def _bowls(book: Book, blend_id: str, *, private: bool) -> Iterator[dict[str, Any]]:
    """The bowls of a blend in its sizes with each of its developers; those that the scale can weigh."""
    blend = book.blends[blend_id]
    mixers = [Mixer(book, blend, developer) for developer in developers_of(book, blend)]
    for size, mixer in product(ladder_of(book, blend), mixers):
        with suppress(CannotWeigh):  # a part would read zero: check says so, and there is no bowl
            yield _bowl(mixer.mix(*size), book, private=private)


def _bowl(bowl: Bowl, book: Book, *, private: bool) -> dict[str, Any]:
    places = decimals_of(bowl.step)
    currency = book.house.currency
    pours = []
    for each in bowl.pours:
        pour = {
            "product": each.product.id,
            "role": each.role,
            "exact": exact(each.reading.exact),
            "weigh": fixed(each.reading.weigh, places),
            "scale_shows": fixed(each.scale_shows, places),
        }
        pours.append({**pour, "cost": decimal_of(each.cost, currency) or ""} if private else pour)
    return {
        "blend": bowl.blend.id,
        "developer": bowl.developer.id,
        "batch": f"{plain(bowl.batch)} {bowl.unit}",
        "step": f"{plain(bowl.step)} {bowl.unit}",
        "pours": pours,
        "total": fixed(bowl.total, places),
        "peroxide_percent": exact(bowl.peroxide),
        "worst_error_percent": exact(bowl.worst_error * 100),
    }


def exact(number: Fraction) -> str:
    """A number without rounding: a decimal where it has one of at most twelve places, else as ``1/3``."""
    if (number * 10**12).denominator == 1:
        return plain(number, 12)
    return f"{number.numerator}/{number.denominator}"


TEXT = {"type": "string"}
NUMBER_SCHEMA = {"type": "string", "pattern": "^[0-9]+(\\.[0-9]+|/[0-9]+)?$"}
DECIMAL = {"type": "string", "pattern": "^[0-9]+(\\.[0-9]+)?$"}


def book_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of `book_data`. Its entries' schemas are the editors', with an id."""
    lists = {folder: {"$ref": f"urn:bowlbook:{kind}"} for folder, kind in FOLDERS.items()} | {"bowls": BOWL}
    properties = {
        "format": {"const": FORMAT},
        "version": {"const": VERSION},
        "house": {"$ref": "urn:bowlbook:house"},
        **{name: {"type": "array", "items": items} for name, items in lists.items()},
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A book, as bowlbook export --json writes it",
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
        "$defs": {kind: _entry_schema(kind) for kind in ENTRY_CLASSES},
    }


def _closed(properties: dict[str, Any], *optional: str) -> dict[str, Any]:
    required = [key for key in properties if key not in optional]
    return {"type": "object", "properties": properties, "required": required, "additionalProperties": False}


POUR = _closed(
    {
        "product": TEXT,
        "role": {"enum": ["lightener", "toner", "developer", "additive"]},
        "exact": NUMBER_SCHEMA,
        "weigh": DECIMAL,
        "scale_shows": DECIMAL,
        "cost": TEXT,
    },
    "cost",
)
BOWL = _closed(
    {
        "blend": TEXT,
        "developer": TEXT,
        "batch": TEXT,
        "step": TEXT,
        "pours": {"type": "array", "items": POUR},
        "total": DECIMAL,
        "peroxide_percent": NUMBER_SCHEMA,
        "worst_error_percent": NUMBER_SCHEMA,
    }
)


def _entry_schema(kind: str) -> dict[str, Any]:
    """The schema of a kind of entry, with an id, and without asking for what only the team's copy has."""
    schema = schema_of(kind)
    schema["$id"] = f"urn:bowlbook:{kind}"
    # A copy for the public lacks the private keys, and is a book of this schema all the same.
    for each in (*sides_of(schema), *schema.get("$defs", {}).values()):
        each["required"] = [key for key in each.get("required", []) if key not in private_keys()]
    for each in sides_of(schema):
        each["properties"] = {"id": TEXT, **each["properties"]}
        each["required"] = ["id", *each["required"]]
    return schema
