"""What a person says of a table: in the file for ``--columns``, or as the answer to a question."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from bowlbook.importing.words import fields
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.document import read_source
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean

ROW_KINDS = {"recipes": "recipe", "products": "product"}
DECIMAL = {"comma": ",", "point": "."}
"""How a table's decimal sign is said, and the sign."""
DAYS = ("day first", "month first")
"""How a table may write 02/10/2026."""
LIGHTENER_FIRST, ADDITIVE_FIRST = "lightener first", "additive first"
"""Which side of an additive's ratio is which."""
PART_OF_ONE = "part of 1"
"""The meaning of a column in which 6 % is written as 0.06."""
NET_UNITS = ("g", "kg", "oz", "lb", "mL", "L", "fl oz", "pieces")
MEANS = ("volume", "%", PART_OF_ONE, "minutes", "g/mL", "ratio", LIGHTENER_FIRST, ADDITIVE_FIRST, *NET_UNITS)
"""All that ``means`` may say of a column."""
LEAVE_OUT = "leave out"
NUMBERED = ("lighteners", "lighteners.parts", "toners", "toners.parts", "additives", "additives.ratio")
"""Fields that a table may have several columns of, with numbers or one after the other."""
MAPPINGS = ("columns", "every_row", "means")
"""What stands under keys of its own in the file for ``--columns``."""


class Said(NamedTuple):
    """``every_row``: the text of a field that the table has no column of, as that of a cell in every row.

    ``means``: what the cells of a column mean that do not say it, one of `MEANS`, by the column's name.
    """

    rows: str = ""
    sheet: str | None = None
    decimal: str = ""
    days: str = ""
    columns: Mapping[str, str] = {}
    every_row: Mapping[str, str] = {}
    means: Mapping[str, str] = {}


def read_said(path: Path) -> tuple[Said, list[Finding]]:
    """The file for ``--columns``: ``rows``, ``sheet``, ``decimal``, ``days``; under ``columns`` fields by
    name, under ``every_row`` texts by field, and under ``means`` what a column's cells mean.
    """
    source, findings = read_source(path, str(path), frozenset())
    data = source.data
    if data is None or findings:
        return Said(), findings
    wrong: list[Finding] = []

    def refuse(way: tuple[str, ...], message: str, mend: str) -> None:
        wrong.append(source.finding(way, "bad-columns", message, mend))

    for key, value in data.items():
        if key not in Said._fields:
            refuse((key,), f'There is no key "{key[:40]}" here.', f"Keys: {', '.join(Said._fields)}.")
        elif isinstance(value, dict) != (key in MAPPINGS):
            refuse((key,), "Here belongs something else.", "Write decimal: comma, and names under columns:.")
    for key, words, message in (
        ("rows", ROW_KINDS, "Rows are recipes or products."),
        ("decimal", DECIMAL, "The decimal sign is a comma or a point."),
        ("days", DAYS, "This is no order of day and month."),
    ):
        if data.get(key, "") not in ("", *words):
            refuse((key,), message, f"Write {' or '.join(f'{key}: {word}' for word in words)}.")
    rows, decimal, days = (str(data.get(key, "")) for key in ("rows", "decimal", "days"))
    named, same, means = (found if isinstance(found := data.get(key), dict) else {} for key in MAPPINGS)
    known = [*fields(ROW_KINDS.get(rows, "recipe")), *([] if rows else fields("product")), LEAVE_OUT]
    for name, given in named.items():
        if not isinstance(given, str) or numbered(given)[0] not in known:
            mend = did_you_mean(str(given), known) or f"Fields: {', '.join(dict.fromkeys(known))}."
            refuse(("columns", name), "This is no field.", mend)
    for name, given in same.items():
        if name == LEAVE_OUT or name not in known:
            refuse(("every_row", name), "This is no field.", did_you_mean(name, known) or "Write a field.")
        elif not isinstance(given, str):
            refuse(("every_row", name), "Here belongs what a cell would say.", "Write one text.")
    for name, given in means.items():
        if given not in MEANS:
            mend = did_you_mean(str(given), MEANS) or f"Write one of: {', '.join(MEANS)}."
            refuse(("means", name), "The cells of no column mean this.", mend)
    if wrong:
        return Said(), wrong
    meant = {bare_name(name): str(given) for name, given in means.items()}
    by_name = {bare_name(name): " ".join(str(given).split()) for name, given in named.items()}
    return Said(rows, data.get("sheet"), DECIMAL.get(decimal, ""), days, by_name, same, meant), []


def numbered(text: str) -> tuple[str, int]:
    """A field with a number behind it, as ``lighteners.parts 2``: the field, and the number from 0."""
    name = " ".join(text.split())
    found = re.fullmatch(r"(.+?)\s+([1-9])", name)
    return (found[1], int(found[2]) - 1) if found and found[1] in NUMBERED else (name, 0)
