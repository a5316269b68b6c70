"""The book as tables: one a kind of entry, a row an entry. ``bowlbook import`` reads products and blends."""

import csv
import io
import json
from collections.abc import Iterable
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDERS
from bowlbook.entries.entry import parts_in
from bowlbook.entries.facets import FACETS
from bowlbook.entries.validate import classes_of
from bowlbook.exporting.book_data import book_data
from bowlbook.formatting.order import keys_in_order

HEADS = {"notes": "public notes"}
"""Columns with another name than their field: a column notes is a team's own, wherever it is read."""
SHARES = {"lighteners": "parts", "toners": "parts", "additives": "ratio"}
"""Lists of a product and a number, written as ``soft-clay 2 + violet-clay 1``."""
LINES = ("hazards", "cautions", "steps", "outcomes", "tools")
"""Lists of sentences: one a line of the cell. Other lists have semicolons."""


def tables(book: Book, *, private: bool) -> dict[str, str]:
    """The name of each table, and its text: CSV (RFC 4180) in UTF-8, with a row of names."""
    data = book_data(book, private=private)
    found = {"house": _csv([flat("house", data["house"])])}
    for folder, kind in FOLDERS.items():
        found[folder] = _csv([flat(kind, each) for each in data[folder]], first=_columns(kind))
    rows = []
    for bowl in data["bowls"]:
        pours = bowl.pop("pours")
        rows += [{**bowl, "pour": str(place), **pour} for place, pour in enumerate(pours, 1)]
    return {**found, "pours": _csv(rows)}


def flat(kind: str, data: dict[str, Any]) -> dict[str, str]:
    """An entry's data as cells. A facet that is left out says any: what a blank cell means, nobody knows."""
    cells: dict[str, str] = {}
    for key, value in data.items():
        if key in SHARES:
            join = "; " if key == "additives" else " + "
            cells[key] = join.join(f"{each['product']} {each[SHARES[key]]}" for each in value)
        elif isinstance(value, dict) and not any(isinstance(each, dict) for each in value.values()):
            cells |= {f"{key}.{inner}": _cell(inner, each) for inner, each in value.items()}
        else:
            cells[HEADS.get(key, key)] = _cell(key, value)
    if kind == "blend":
        cells |= {f"suits.{facet}": "any" for facet in FACETS if facet not in data.get("suits", {})}
        # One cell of JSON, as the import reads it.
        if isinstance(data.get("batches"), dict):
            cells = {key: text for key, text in cells.items() if not key.startswith("batches.")}
            cells["batches"] = json.dumps(data["batches"], ensure_ascii=False)
    return cells


def _cell(key: str, value: Any) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, list) and all(isinstance(each, str) for each in value):
        return ("\n" if key in LINES else "; ").join(value)
    return json.dumps(value, ensure_ascii=False)


def _columns(kind: str) -> list[str]:
    """The columns of a kind's table in the order of its fields; those with nothing in them are left out."""
    found = ["id"]
    for cls in classes_of(kind):
        for key, hint in keys_in_order(cls).items():
            inner = parts_in(hint)
            found += [f"{key}.{each}" for each in keys_in_order(inner[0])] if inner else []
            found.append(HEADS.get(key, key))
    return list(dict.fromkeys(found))


def _csv(rows: list[dict[str, str]], first: Iterable[str] = ()) -> str:
    """A table of these rows. ``first``: columns in the order in which they come."""
    used = dict.fromkeys(key for row in rows for key in row)
    # Most books use few of the fields: a table has no column without a value.
    names = dict.fromkeys([*(name for name in first if name in used), *used])
    text = io.StringIO()
    writer = csv.DictWriter(text, names, restval="", lineterminator="\r\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()
