"""Writes a table of texts as .xlsx (openpyxl) or .ods (odfpy): other programs than the one that reads them.

A cell that begins with = is a number, with @ a day, with ~ a time of day, with ^ the cell above it, merged.
"""

from datetime import date, time
from pathlib import Path
from typing import Any

from odf.opendocument import OpenDocumentSpreadsheet
from odf.table import Table, TableCell, TableRow
from odf.text import P
from openpyxl import Workbook


def value_of(text: str) -> Any:
    """What the program is given for a cell."""
    if text.startswith("="):
        return float(text[1:])
    if text.startswith("@"):
        return date.fromisoformat(text[1:])
    if text.startswith("~"):
        return time.fromisoformat(text[1:])
    return None if text in ("", "^") else text


def write_xlsx(path: Path, rows: list[list[str]]) -> None:
    book = Workbook()
    sheet = book.active
    for row in rows:
        sheet.append([value_of(cell) for cell in row])
    for column in range(1, max(map(len, rows)) + 1):
        first = 0
        for number, row in enumerate([*rows, []], 1):
            is_more = len(row) >= column and row[column - 1] == "^"
            if first and not is_more and number - 1 > first:
                sheet.merge_cells(start_row=first, end_row=number - 1, start_column=column, end_column=column)
            first = first if is_more else number
    book.save(path)


def write_ods(path: Path, rows: list[list[str]]) -> None:
    document = OpenDocumentSpreadsheet()
    table = Table(name="Tabelle")
    for row in rows:
        line = TableRow()
        for cell in row:
            value = value_of(cell)
            if isinstance(value, float):
                made = TableCell(valuetype="float", value=repr(value))
            elif isinstance(value, date):
                made = TableCell(valuetype="date", datevalue=value.isoformat())
            elif isinstance(value, time):
                made = TableCell(valuetype="time", timevalue=f"PT{value.hour}H{value.minute}M{value.second}S")
            else:
                made = TableCell(valuetype="string")
                made.addElement(P(text=value or ""))
            line.addElement(made)
        table.addElement(line)
    document.spreadsheet.addElement(table)
    document.save(str(path))
