"""A price list in CSV, read strictly: every mistake at its line, none of it taken over here."""

import csv
from datetime import date
from pathlib import Path

from bowlbook.book.book import Book
from bowlbook.book.new_price import NewPrice, PriceRow, PriceRowReader
from bowlbook.reading import guard
from bowlbook.reading.finding import Finding, sorted_findings
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc

COLUMNS = ("product", "net", "price", "date")
"""What a list has. ``article`` may replace ``product``; ``supplier`` and ``currency`` are read too."""
LARGEST = 1_000_000
"""Bytes of the largest list that is read."""


def read_price_list(
    path: Path, book: Book, today: date, decimals: int
) -> tuple[list[NewPrice], list[Finding]]:
    """Read a list with the columns product (or article), net, price, date, parted by comma, semicolon or tab.

    ``decimals``: how many the house's currency has. Every mistake in one go: no such product, a row twice,
    another currency than the house's, an amount that cannot be read, a price finer than the currency, a day
    before that of the book's price or after ``today``. Rows with a mistake are left out.
    """
    try:
        text, _ = guard.decode(guard.read_bytes(path, LARGEST, links=True))
        guard.refuse_control(text, "Save the list as plain CSV.")
    except Refusal as refusal:
        line, column = refusal.at
        return [], [PriceRow(path, line, "", {"": column}).finding("", refusal)]
    return _rows(path, text, PriceRowReader(book, today, decimals))


def _rows(path: Path, text: str, reader: PriceRowReader) -> tuple[list[NewPrice], list[Finding]]:
    lines = text.rstrip("\n").split("\n")
    rows = csv.reader(lines, delimiter=max(",;\t", key=lines[0].count), strict=True)
    found: list[NewPrice] = []
    findings: list[Finding] = []
    seen: dict[tuple[str, Loc], int] = {}
    try:
        names = [cell.strip().lower() for cell in next(rows, [])]
        wrong_header = _header(names)
        if wrong_header is not None:
            return [], [PriceRow(path, 1, lines[0], {}).finding("", wrong_header)]
        for cells in rows:
            shown = lines[rows.line_num - 1]
            row = PriceRow(path, rows.line_num, shown, dict(zip(names, _starts(shown, cells), strict=False)))
            if not any(cell.strip() for cell in cells):
                continue
            if len(cells) != len(names):
                message = f"This row has {len(cells)} cells; the first line names {len(names)} columns."
                refusal = Refusal("bad-price-list", message, "Put a cell that holds a comma in quotes.")
                findings.append(row._replace(starts={}).finding("", refusal))
                continue
            given = dict(zip(names, (cell.strip() for cell in cells), strict=True))
            price, wrong = reader.read(given, row)
            named = price.product if price is not None else given.get("product", given.get("article", ""))
            at = price.pack if price is not None else (given.get("supplier", ""),)
            before = seen.setdefault((named, at), row.line)
            if before != row.line:
                message = f'"{named[:60]}" already has a row on line {before}.'
                wrong.append(("product", Refusal("duplicate-reference", message, "Keep one of them.")))
            findings += [row.finding(name, refusal) for name, refusal in wrong]
            if price is not None and not wrong:
                found.append(price)
    except csv.Error as error:
        broken = Refusal("bad-price-list", f"This is no CSV: {error}.", "Close every quotation mark.")
        findings.append(PriceRow(path, max(rows.line_num, 1), "", {}).finding("", broken))
    return found, sorted_findings(findings)


def _header(names: list[str]) -> Refusal | None:
    """What is wrong with the first line's names of columns."""
    if not any(names):
        return Refusal("empty-file", "The list is empty.", f"Its first line is: {','.join(COLUMNS)}")
    missing = [name for name in COLUMNS if name not in names]
    if "article" in names:
        missing = [name for name in missing if name != "product"]
    if not missing and len(set(names)) == len(names):
        return None
    message = f"The first line must name the columns {', '.join(COLUMNS)}, each once."
    mend = f"Missing: {', '.join(missing)}." if missing else "Name each column once."
    return Refusal("bad-price-list", message, mend)


def _starts(shown: str, cells: list[str]) -> list[int]:
    """The column at which each cell of a line begins; 1 for all where quotation marks make that unsure."""
    if '"' in shown:
        return [1] * len(cells)
    starts, at = [], 1
    for cell in cells:
        starts.append(at + len(cell) - len(cell.lstrip()))
        at += len(cell) + 1
    return starts
