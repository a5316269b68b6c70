"""One product of a table: what its kind has, each field as the label says it."""

import re
from collections.abc import Callable
from functools import partial
from typing import Any

from bowlbook.entries.gap import GAP
from bowlbook.entries.product import Product
from bowlbook.formatting.order import class_of, keys_in_order
from bowlbook.importing import cells
from bowlbook.importing.draft import Draft, RowReader
from bowlbook.importing.field_cell import FieldCell
from bowlbook.importing.number import Unclear
from bowlbook.importing.recipe import stamps
from bowlbook.importing.shelf import GAPS
from bowlbook.importing.words import fields


def product_draft(reader: RowReader, name: FieldCell, currency: str) -> Draft:
    """The draft of a product. ``currency``: the house's. Raises `LeftOut`."""
    kind = reader.take("kind", partial(cells.read_word, of="kind"))
    if kind in (None, GAP):
        message = "What kind of product this is, is not said for certain."
        mend = "Write lightener, developer, toner, additive or supply in a column named kind."
        raise reader.leave_out(name.column, "row-left-out", message, mend)
    entry_id = reader.entry_id(name)
    keys = keys_in_order(class_of("product", kind))
    data: dict[str, Any] = {"name": name.words, "kind": kind}
    for key, read in FIELDS.items():
        first, _, second = key.partition(".")
        if first not in keys:
            if not (key == "strength" and "volume" in keys and _strength_is_volume(reader)):
                _does_not_belong(reader, key, kind)
            continue
        value = reader.take(key, read)
        # Makers call a developer's volume its strength; here strength is a word about lighteners.
        if key == "volume" and value is None and _strength_is_volume(reader):
            value = reader.take("strength", read)
        if value is not None and second:
            data.setdefault(first, {})[second] = value
        elif value is not None:
            data[key] = value
    data |= stamps(reader)
    data["pack"] = _pack(reader, data, currency, kind)
    for key, gap in GAPS[kind].items():
        data.setdefault(key, gap)
    return reader.draft("product", entry_id, data)


def _limit(cell: FieldCell) -> str:
    if not _says_volume(cell):
        raise Unclear("Are these volumes or per cent?", "Write it as 30 volume.")
    return f"{cells.read_volume(cell)} volume"


def _levels(cell: FieldCell) -> list[str]:
    """Levels one by one: ``9, 10`` and ``8-10`` alike."""
    found: list[str] = []
    for piece in re.split(r"\s*[,;+/]\s*", cell.text):
        low, _, high = cells.read_span(cell._replace(text=piece)).partition("-")
        found += [str(level) for level in range(int(low), int(high or low) + 1)]
    return found


FIELDS: dict[str, Callable[[FieldCell], object]] = {
    "summary": cells.read_words,
    "kept_for": cells.read_words,
    "other_names": cells.read_names,
    "form": partial(cells.read_word, of="form"),
    "strength": partial(cells.read_word, of="strength"),
    "lifts": cells.read_span,
    "pigment": partial(cells.read_word, of="pigment"),
    "tone": partial(cells.read_known, of="tone"),
    "levels": _levels,
    "mixing_ratio.usual": cells.read_ratio,
    "mixing_ratio.from": cells.read_ratio,
    "mixing_ratio.to": cells.read_ratio,
    "placement": partial(cells.read_known, of="placement"),
    "developer_limit": _limit,
    "longest_on_hair": cells.read_minutes,
    "longest_on_scalp": cells.read_minutes,
    "volume": cells.read_volume,
    "peroxide": cells.read_percent,
    "density": cells.read_density,
    "does": cells.read_words,
    "dose": cells.read_dose,
    "size": cells.read_words,
    "per_person": partial(cells.read_word, of="yes_no"),
    "hazards": cells.read_list,
    "notes": cells.read_text,
    "formerly": cells.read_names,
    "instead_of_shared": partial(cells.read_word, of="yes_no"),
    "private": cells.read_text,
    "other_packs": cells.read_json,
}
"""How each field of a product is read, but its name, kind, pack and review."""


def _strength_is_volume(reader: RowReader) -> bool:
    """Whether the strength of a developer is said in volumes, as ``20 vol``, in the column of strengths."""
    return any(map(_says_volume, reader.cells("strength")))


def _without_column(reader: RowReader, kind: str) -> list[str]:
    """The fields that not every product has, but one of this kind does, and that no column has."""
    taken = {each.field for each in reader.matched.columns}
    own = set(keys_in_order(class_of("product", kind))) - Product.__dataclass_fields__.keys()
    return [each for each in fields("product") if each.partition(".")[0] in own and each not in taken]


def _does_not_belong(reader: RowReader, key: str, kind: str) -> None:
    """List a cell with something in it that a product of this kind cannot have."""
    for cell in reader.filled(key):
        what = key.split(".")[0].replace("_", " ")
        message = f"{cell.column.header}: a {kind} has no {what}; this is left out."
        others = ", ".join(_without_column(reader, kind))
        say = f" or say in the file for --columns what the column is: {others};" if others else ""
        reader.find(cell.column, "unclear-cell", message, f"Look at the kind;{say} or clear the cell.")


def _pack(reader: RowReader, data: dict[str, object], currency: str, kind: str) -> dict[str, Any] | None:
    """The pack: net content, price, day; what the figures need beside it is left open."""

    def net(cell: FieldCell) -> str:
        found = cells.read_net(cell)
        if found.endswith(" oz") and not found.endswith("fl oz") and kind not in ("lightener", "supply"):
            question = "Is this a weight, or fluid ounces?"
            raise Unclear(question, "Write 16 fl oz for a volume; for a weight give it in grams.")
        return found

    found = {
        "net": reader.take("pack.net", net),
        "price": reader.take("pack.price", partial(cells.read_price, currency=currency)),
        "priced_on": reader.take("pack.priced_on", cells.read_day),
        "currency": reader.take("pack.currency", partial(_currency, currency=currency)),
        "supplier": reader.take("pack.supplier", cells.read_words),
        "article": reader.take("pack.article", cells.read_words),
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


def _currency(cell: FieldCell, currency: str) -> str:
    code = cells.SIGNS.get(cell.text, cell.text.upper())
    if code != currency:
        raise Unclear("This is not the house's currency.", f"Give the price in {currency}.")
    return code


def _says_volume(cell: FieldCell) -> bool:
    return re.search(r"[^\W\d_]", f"{cell.text}{cell.unit}") is not None and "%" not in cell.text
