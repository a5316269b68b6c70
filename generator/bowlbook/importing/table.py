"""A spreadsheet's rows: .csv by the standard library, .xlsx and .ods by python-calamine.

A cell keeps what kind of value the spreadsheet holds, since a program may have made a time or a day of 1:2.
"""

import csv
import io
import re
import zipfile
from datetime import date, time, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

from bowlbook.reading import guard
from bowlbook.reading.refusal import Refusal

LARGEST = 4 * 1024 * 1024
"""Bytes of the largest table that is read."""
UNPACKED = 64 * 1024 * 1024
"""Bytes that the parts of an .xlsx or .ods may have when they are unpacked."""
MOST_ROWS, MOST_COLUMNS = 5000, 100
LARGEST_UNDER = 16
"""The largest denominator of a fraction that a spreadsheet keeps as 15 digits."""
MERGED_IN_ODS = re.compile(rb'number-rows-spanned="(?!1")')
SPACES = str.maketrans(dict.fromkeys("\u00a0\u202f\u2007\u2009", " "))


class Cell(NamedTuple):
    """``kind``: text, number, time, date or error; ``text`` is empty for a blank cell.

    A number is a decimal of at most 15 digits, which is what spreadsheets keep; a time ``h:m`` with ``:s``
    where there are seconds; a date as ISO 8601.
    """

    text: str = ""
    kind: str = "text"


BLANK = Cell()


class Row(NamedTuple):
    """``number``: the row of the sheet, or the line of the file, from 1."""

    number: int
    cells: list[Cell]

    def cell(self, column: int) -> Cell:
        """The cell of a column, from 0; blank where the row is shorter."""
        return self.cells[column] if column < len(self.cells) else BLANK

    @property
    def is_blank(self) -> bool:
        return not any(cell.text for cell in self.cells)


class Table(NamedTuple):
    """``merged``: first and last row (as they are numbered) and column (from 0) of each merged range."""

    rows: list[Row]
    merged: tuple[tuple[int, int, int, int], ...] = ()


def read_table(path: Path, sheet: str | None = None) -> Table:
    """The rows of a table. ``sheet``: the name of one of several. Raises `Refusal`."""
    kind = path.suffix.lower()
    if kind not in (".csv", ".xlsx", ".ods"):
        raise _bad("A table is a file that ends in .csv, .xlsx or .ods.", "Save it as one of these.")
    content = guard.read_bytes(path, LARGEST, links=True)
    table = _of_csv(content) if kind == ".csv" else _of_sheets(content, sheet)
    if len(table.rows) > MOST_ROWS or any(len(row.cells) > MOST_COLUMNS for row in table.rows):
        message = f"This table has more than {MOST_ROWS} rows or {MOST_COLUMNS} columns."
        raise _bad(message, "Take out what is no recipe and no product, or split it.")
    return table


def _bad(message: str, mend: str) -> Refusal:
    return Refusal("bad-table", message, mend)


def _of_csv(content: bytes) -> Table:
    try:
        text, _ = guard.decode(content)
    except Refusal as refusal:
        mend = "Save it in the spreadsheet program as CSV UTF-8, or as .xlsx."
        raise Refusal(refusal.code, refusal.message, mend, at=refusal.at) from refusal
    guard.refuse_control(text, "Save the table as plain CSV.")
    first = next((line for line in text.split("\n") if line.strip()), "")
    found = csv.reader(io.StringIO(text), delimiter=max(";\t,", key=first.count), strict=True)
    rows = []
    start = 1
    try:
        for cells in found:
            rows.append(Row(start, [Cell(_tidy(cell)) for cell in cells]))
            start = found.line_num + 1  # a quoted cell may hold line ends: a row is named by its first line
    except csv.Error as error:
        message, at = f"This is no CSV: {error}.", (found.line_num, 1)
        raise Refusal("bad-table", message, "Close every quotation mark.", at=at) from error
    return Table(rows)


def _tidy(text: str) -> str:
    return text.translate(SPACES).strip()


def _of_sheets(content: bytes, wanted: str | None) -> Table:
    try:
        import python_calamine
    except ImportError as error:
        mend = 'Install it (pip install "bowlbook[import]"), or save the table as .csv.'
        raise _bad("Reading .xlsx and .ods takes the package python-calamine.", mend) from error
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as parts:
            if sum(part.file_size for part in parts.infolist()) > UNPACKED:
                raise _bad("This table is far larger than any book's.", "Split it.")
            if "content.xml" in parts.namelist() and MERGED_IN_ODS.search(parts.read("content.xml")):
                message = "Cells are merged over several rows here, and an .ods does not say over which."
                raise _bad(message, "Save it as .xlsx, or write the value into each of the rows.")
        book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(content))
        visible = python_calamine.SheetVisibleEnum.Visible
        names = [each.name for each in book.sheets_metadata if each.visible == visible]
        sheets = {name: book.get_sheet_by_name(name) for name in names}
        filled = {name: sheet for name, sheet in sheets.items() if sheet.total_height}
        sheet = _one_of(filled, wanted)
        values = sheet.to_python(skip_empty_area=False)
        merged = sheet.merged_cell_ranges or []
    except Refusal:
        raise
    except Exception as error:  # whatever a file of a stranger makes a foreign library say
        mend = "Open it in a spreadsheet program and save it again, or save it as .csv."
        raise _bad("This file cannot be read as a spreadsheet.", mend) from error
    rows = [Row(number, [_cell(value) for value in row]) for number, row in enumerate(values, 1)]
    for row in rows:
        for cell in row.cells:
            if guard.CONTROL.search(cell.text.replace("\n", "")):
                message = f"There is a control or invisible character in row {row.number}."
                raise Refusal("control-character", message, "Type that cell again.", at=(row.number, 1))
    ranges = [(first[0] + 1, last[0] + 1, first[1], last[1]) for first, last in merged]
    return Table(rows, tuple(ranges))


def _one_of(filled: dict[str, Any], wanted: str | None) -> Any:
    """The sheet that is wanted, or the only one with anything in it. Raises `Refusal`."""
    if wanted is not None and wanted in filled:
        return filled[wanted]
    if wanted is None and len(filled) == 1:
        return next(iter(filled.values()))
    if not filled:
        raise _bad("There is nothing in this table.", "Write one row of column names and the rows under it.")
    names = ", ".join(f'"{name}"' for name in filled)
    several = "There are several sheets with something in them."
    message = several if wanted is None else "There is no such sheet."
    raise _bad(message, f"Say which with --sheet: {names}.")


def _cell(value: Any) -> Cell:
    if isinstance(value, bool):
        return Cell("yes" if value else "no")
    if isinstance(value, int | float):
        return Cell(_decimal(value), "number")
    if isinstance(value, date):  # with a time behind it, where that is set
        return Cell(str(value), "date")
    if isinstance(value, time):
        seconds = value.second or value.microsecond
        return Cell(f"{value.hour}:{value.minute}" + (f":{value.second}" if seconds else ""), "time")
    if isinstance(value, timedelta):
        minutes, rest = divmod(value.total_seconds(), 60)
        hours, minutes = divmod(int(minutes), 60)
        return Cell(f"{hours}:{minutes}" + (f":{rest:g}" if rest else ""), "time")
    text = _tidy(str(value).replace("\r\n", "\n").replace("\r", "\n"))
    return Cell(text, "error" if text.startswith("#") and text.endswith(("!", "?", "/A")) else "text")


def _decimal(value: float) -> str:
    """A number with the 15 digits that a spreadsheet keeps of it, never with an exponent.

    One that goes on after them is the fraction that was typed: 0.333333333333333 is 1/3.
    """
    text = f"{value:.15g}"
    if len(text) > 15 and value > 0:
        nearest = Fraction(value).limit_denominator(LARGEST_UNDER)
        whole, top = divmod(nearest.numerator, nearest.denominator)
        if top and f"{float(nearest):.15g}" == text:
            return f"{whole} {top}/{nearest.denominator}".removeprefix("0 ")
    return text if "e" not in text else f"{value:f}".rstrip("0").rstrip(".")
