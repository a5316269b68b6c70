"""One product of a table: what its kind has, each field as the label says it."""

import re
from collections.abc import Callable
from typing import Any

from bowlbook.entries.entry_id import id_from
from bowlbook.entries.gap import GAP
from bowlbook.entries.product import Product
from bowlbook.formatting.order import class_of, keys_in_order
from bowlbook.importing import cells
from bowlbook.importing.columns import Column
from bowlbook.importing.draft import Draft, RowReader
from bowlbook.importing.number import Unclear
from bowlbook.importing.recipe import retired, reviewed
from bowlbook.importing.shelf import GAPS
from bowlbook.importing.table import Cell
from bowlbook.importing.words import fields

Read = Callable[[Cell, Column, str], Any]
"""Takes a cell, its column, and the sign before decimals in this table."""


def product_draft(reader: RowReader, currency: str) -> Draft:
    """The draft of a product. ``currency``: the house's. Raises `LeftOut`."""
    reader.refuse_persons()
    name = reader.one("name")
    assert name is not None
    kind = reader.take("kind", lambda cell, _: cells.read_word(cell, "kind"))
    if kind in (None, GAP):
        message = "What kind of product this is, is not said for certain."
        mend = "Write lightener, developer, toner, additive or supply in a column named kind."
        raise reader.leave_out(name[0].place, "row-left-out", message, mend)
    entry_id = reader.take("id", lambda cell, _: cell.text) or id_from(name[1].text)
    if not entry_id or entry_id == GAP:
        message = "No file can be named after this."
        raise reader.leave_out(
            name[0].place, "row-left-out", message, "Give it an id in a column of that name."
        )
    keys = keys_in_order(class_of("product", kind))
    data: dict[str, Any] = {"name": _text(name[1]), "kind": kind}
    for key in FIELDS:
        first, _, second = key.partition(".")
        if first not in keys:
            if key == "strength" and "volume" in keys and _strength_is_volume(reader):
                continue
            _does_not_belong(reader, key, kind)
            continue
        value = _value(reader, key)
        if key == "volume" and value is None and _strength_is_volume(reader):
            value = _value(reader, key, "strength")
        if value is not None and second:
            data.setdefault(first, {})[second] = value
        elif value is not None:
            data[key] = value
    data["reviewed"], data["retired"] = reviewed(reader), retired(reader)
    data["pack"] = _pack(reader, data, currency, kind)
    for key, gap in GAPS[kind].items():
        data.setdefault(key, gap)
    data = {key: value for key, value in data.items() if value not in (None, [])}
    return reader.checked(Draft("product", entry_id, reader.row, data))


def _value(reader: RowReader, key: str, column: str | None = None) -> Any:
    """The value of a field, read from its column or from another ``column``."""
    read, decimal = FIELDS[key], reader.decimal
    return reader.take(column or key, lambda cell, of: read(cell, of, decimal))


def _text(cell: Cell, column: Column | None = None, decimal: str = "") -> str:
    return " ".join(cell.text.split())


def _words(cell: Cell, column: Column, decimal: str) -> list[str]:
    return cells.read_words(cell, column.field)


def _ratio(cell: Cell, column: Column, decimal: str) -> str:
    return cells.read_ratio(cell, column.unit, decimal)


def _minutes(cell: Cell, column: Column, decimal: str) -> str:
    return cells.read_minutes(cell, column.unit, decimal)


def _limit(cell: Cell, column: Column, decimal: str) -> str:
    if not _says_volume(cell, column):
        raise Unclear("Are these volumes or per cent?", "Write it as 30 volume.")
    return f"{cells.read_volume(cell, decimal)} volume"


FIELDS: dict[str, Read] = {
    "summary": _text,
    "kept_for": _text,
    "other_names": lambda cell, *_: cells.read_names(cell),
    "form": lambda cell, *_: cells.read_word(cell, "form"),
    "strength": lambda cell, *_: cells.read_word(cell, "strength"),
    "lifts": lambda cell, *_: cells.read_span(cell),
    "pigment": lambda cell, *_: cells.read_word(cell, "pigment"),
    "tone": _words,
    "levels": lambda cell, *_: _levels(cell),
    "mixing_ratio.usual": _ratio,
    "mixing_ratio.from": _ratio,
    "mixing_ratio.to": _ratio,
    "placement": _words,
    "developer_limit": _limit,
    "longest_on_hair": _minutes,
    "longest_on_scalp": _minutes,
    "volume": lambda cell, _, decimal: cells.read_volume(cell, decimal),
    "peroxide": lambda cell, column, decimal: cells.read_percent(cell, column.unit, decimal),
    "density": lambda cell, column, decimal: cells.read_density(cell, column.unit, decimal),
    "does": _text,
    "dose": lambda cell, column, decimal: cells.read_dose(cell, column.unit, decimal),
    "size": _text,
    "per_person": lambda cell, *_: cells.read_word(cell, "yes_no"),
    "hazards": lambda cell, *_: cells.read_list(cell),
    "notes": lambda cell, *_: cell.text,
    "formerly": lambda cell, *_: cells.read_names(cell),
    "instead_of_shared": lambda cell, *_: cells.read_word(cell, "yes_no"),
    "private": lambda cell, *_: cell.text,
    "other_packs": lambda cell, *_: cells.read_json(cell),
}
"""How each field of a product is read, but its name, kind, pack and review."""


def _strength_is_volume(reader: RowReader) -> bool:
    """Whether the strength of a developer is said in volumes, as ``20 vol``, in the column of strengths."""
    return any(_says_volume(cell, column) for column, cell in reader.cells("strength"))


def _without_column(reader: RowReader, kind: str) -> list[str]:
    """The fields that not every product has, but one of this kind does, and that no column has."""
    taken = {each.field for each in reader.matched.columns}
    own = set(keys_in_order(class_of("product", kind))) - Product.__dataclass_fields__.keys()
    return [each for each in fields("product") if each.partition(".")[0] in own and each not in taken]


def _does_not_belong(reader: RowReader, key: str, kind: str) -> None:
    """List a cell with something in it that a product of this kind cannot have."""
    for column, cell in reader.cells(key):
        if cell.text:
            message = (
                f"{column.header}: a {kind} has no {key.split('.')[0].replace('_', ' ')}; this is left out."
            )
            others = ", ".join(_without_column(reader, kind))
            say = f" or say in the file for --columns what the column is: {others};" if others else ""
            mend = f"Look at the kind;{say} or clear the cell."
            reader.find(column.place, "unclear-cell", message, mend)


def _pack(reader: RowReader, data: dict[str, Any], currency: str, kind: str) -> dict[str, Any] | None:
    """The pack: net content, price, day; what the figures need beside it is left open."""

    def net(cell: Cell, column: Column) -> str:
        found = cells.read_net(cell, column.unit, reader.decimal)
        if found.endswith(" oz") and not found.endswith("fl oz") and kind not in ("lightener", "supply"):
            question = "Is this a weight, or fluid ounces?"
            raise Unclear(question, "Write 16 fl oz for a volume; for a weight give it in grams.")
        return found

    found = {
        "net": reader.take("pack.net", net),
        "price": reader.take(
            "pack.price", lambda cell, column: cells.read_price(cell, column.unit, reader.decimal, currency)
        ),
        "priced_on": reader.take("pack.priced_on", lambda cell, _: cells.read_day(cell, reader.days)),
        "currency": reader.take("pack.currency", lambda cell, _: _currency(cell, currency)),
        "supplier": reader.take("pack.supplier", _text),
        "article": reader.take("pack.article", _text),
    }
    stated = {key: value for key, value in found.items() if value is not None}
    if "price" in stated:
        stated.setdefault("priced_on", GAP)
    if not stated.keys() - {"priced_on", "currency"}:
        return None
    by_volume = re.search(r" (mL|L|fl oz)$", str(stated.get("net", "")))
    if by_volume and kind != "supply":
        data.setdefault("density", GAP)
    return stated


def _currency(cell: Cell, currency: str) -> str:
    code = cells.SIGNS.get(cell.text, cell.text.upper())
    if code != currency:
        raise Unclear("This is not the house's currency.", f"Give the price in {currency}.")
    return code


def _says_volume(cell: Cell, column: Column) -> bool:
    return re.search(r"[^\W\d_]", f"{cell.text}{column.unit}") is not None and "%" not in cell.text


def _levels(cell: Cell) -> list[str]:
    """Levels one by one: ``9, 10`` and ``8-10`` alike."""
    found: list[str] = []
    for piece in re.split(r"\s*[,;+/]\s*", cell.text):
        low, _, high = cells.read_span(cell._replace(text=piece)).partition("-")
        found += [str(level) for level in range(int(low), int(high or low) + 1)]
    return found
