"""A price list in CSV, read strictly: every mistake at its line, none of it taken over here."""

import csv
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.reading import guard
from bowlbook.reading.amount import Count, Mass, Volume, read_date, read_money, read_net
from bowlbook.reading.finding import Finding, Severity, finding_of, in_order
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal

COLUMNS = ("product", "net", "price", "date")
LARGEST = 1_000_000
"""Bytes of the largest list that is read."""
WITH_CURRENCY = re.compile(r"([A-Za-z]{3})\s*([0-9].*)|(.*[0-9])\s*([A-Za-z]{3})")


class Row(NamedTuple):
    """Where a row of a list is: its line, the line's text, and the column at which each cell begins."""

    path: Path
    line: int
    text: str
    starts: Mapping[str, int]

    def finding(self, column: str, refusal: Refusal, severity: Severity = "error") -> Finding:
        """A refusal as a finding at one of the row's cells."""
        place = Place(str(self.path), self.line, self.starts.get(column, 1))
        return finding_of(refusal, place, self.text[:160])._replace(severity=severity)


@dataclass(frozen=True, slots=True)
class NewPrice:
    """One row that can be taken over: the texts as written, their values, and where the row is.

    ``currency``: what a shared product must say beside its price; None for one of the book's own.
    """

    product: str
    net_text: str
    price_text: str
    date_text: str
    net: Mass | Volume | Count
    price: Fraction
    priced_on: date
    currency: str | None
    row: Row


def read_price_list(
    path: Path, book: Book, today: date, decimals: int
) -> tuple[list[NewPrice], list[Finding]]:
    """Read a list with the columns product, net, price, date, and currency if wanted, parted by , or ;.

    ``decimals``: how many the house's currency has. Every mistake in one go: no such product, a row twice,
    another currency than the house's, an amount that cannot be read, a price finer than the currency, a day
    before that of the book's price or after ``today``. Rows with a mistake are left out.
    """
    try:
        text, _ = guard.decode(guard.read_bytes(path, LARGEST, links=True))
    except Refusal as refusal:
        line, column = refusal.at
        return [], [Row(path, line, "", {"": column}).finding("", refusal)]
    control = guard.first_control(text)
    if control is not None:
        line, column, name = control
        message = f"There is a control or invisible character here ({name})."
        unseen = Refusal("control-character", message, "Save the list as plain CSV.")
        return [], [Row(path, line, "", {"": column}).finding("", unseen)]
    return _rows(path, text, _Reader(book, today, decimals))


def _rows(path: Path, text: str, reader: "_Reader") -> tuple[list[NewPrice], list[Finding]]:
    lines = text.rstrip("\n").split("\n")
    first = Row(path, 1, lines[0], {})
    delimiter = ";" if lines[0].count(";") > lines[0].count(",") else ","
    rows = csv.reader(lines, delimiter=delimiter, strict=True)
    found: list[NewPrice] = []
    findings: list[Finding] = []
    seen: dict[str, int] = {}
    try:
        names = [cell.strip().lower() for cell in next(rows, [])]
        wrong_header = _header(names)
        if wrong_header is not None:
            return [], [first.finding("", wrong_header)]
        for cells in rows:
            shown = lines[rows.line_num - 1]
            row = Row(path, rows.line_num, shown, dict(zip(names, _starts(shown, cells), strict=False)))
            if not any(cell.strip() for cell in cells):
                continue
            if len(cells) != len(names):
                message = f"This row has {len(cells)} cells; the first line names {len(names)} columns."
                refusal = Refusal("bad-price-list", message, "Put a cell that holds a comma in quotes.")
                findings.append(row._replace(starts={}).finding("", refusal))
                continue
            given = dict(zip(names, (cell.strip() for cell in cells), strict=True))
            price, wrong = reader.read(given, row)
            before = seen.setdefault(given["product"], row.line)
            if before != row.line:
                message = f'"{given["product"][:60]}" already has a row on line {before}.'
                wrong.append(("product", Refusal("duplicate-reference", message, "Keep one of them.")))
            findings += [row.finding(name, refusal) for name, refusal in wrong]
            if price is not None and not wrong:
                found.append(price)
    except csv.Error as error:
        broken = Refusal("bad-price-list", f"This is no CSV: {error}.", "Close every quotation mark.")
        findings.append(Row(path, max(rows.line_num, 1), "", {}).finding("", broken))
    return found, in_order(findings)


def _header(names: list[str]) -> Refusal | None:
    """What is wrong with the first line's names of columns."""
    if not any(names):
        return Refusal("empty-file", "The list is empty.", f"Its first line is: {','.join(COLUMNS)}")
    missing = [name for name in COLUMNS if name not in names]
    if not missing and len(set(names)) == len(names):
        return None
    return Refusal(
        "bad-price-list",
        f"The first line must name the columns {', '.join(COLUMNS)}, each once.",
        f"Missing: {', '.join(missing)}." if missing else "Name each column once.",
    )


def _starts(shown: str, cells: list[str]) -> list[int]:
    """The column at which each cell of a line begins; 1 for all where quotation marks make that unsure."""
    if '"' in shown:
        return [1] * len(cells)
    starts, at = [], 1
    for cell in cells:
        starts.append(at + len(cell) - len(cell.lstrip()))
        at += len(cell) + 1
    return starts


class _Reader(NamedTuple):
    """Reads rows for one book on one day; ``decimals`` of its currency."""

    book: Book
    today: date
    decimals: int

    def read(self, cells: dict[str, str], row: Row) -> tuple[NewPrice | None, list[tuple[str, Refusal]]]:
        """One row's values, or what is wrong with which of its cells."""
        wrong: list[tuple[str, Refusal]] = []
        values: dict[str, object] = {}
        for name, read in (
            ("product", self._product),
            ("currency", self._currency),
            ("net", read_net),
            ("price", self._price),
            ("date", read_date),
        ):
            try:
                values[name] = read(cells.get(name, ""))
            except Refusal as refusal:
                wrong.append((name, refusal))
        if "date" in values:
            wrong += self._day(cells["product"], values["date"])
        if wrong:
            return None, wrong
        net, day = values["net"], values["date"]
        text, price = _price_and_currency(cells["price"])[0], values["price"]
        assert (
            isinstance(net, Mass | Volume | Count) and isinstance(price, Fraction) and isinstance(day, date)
        )
        product = cells["product"]
        currency = self.book.house.currency if is_shared(self.book, product) else None
        return NewPrice(product, cells["net"], text, cells["date"], net, price, day, currency, row), []

    def _product(self, text: str) -> str:
        if text not in self.book.products:
            mend = did_you_mean(text, self.book.products) or "Use the product's id: the name of its file."
            raise Refusal("unknown-id", f'There is no product "{text[:60]}".', mend)
        return text

    def _currency(self, text: str) -> str:
        """The house's currency, which a row may leave out."""
        currency = self.book.house.currency
        if text.upper() not in ("", currency):
            message = f"The house reckons in {currency}, and this price is in {text.upper()[:12]}."
            raise Refusal("mixed-currency", message, f"Give the price in {currency}.")
        return currency

    def _price(self, text: str) -> Fraction:
        amount, currency = _price_and_currency(text)
        self._currency(currency)
        price = read_money(amount)
        scale = 10**self.decimals
        if (price * scale).denominator != 1:
            below = price * scale // 1
            near = [str(Decimal(each).scaleb(-self.decimals)) for each in (below, below + 1) if each]
            have = {0: "no decimals", 1: "one decimal"}.get(self.decimals, f"{self.decimals} decimals")
            raise Refusal(
                "bad-amount",
                f"A price in {self.book.house.currency} has {have}.",
                f"Write {' or '.join(near)}, as the supplier's bill says.",
            )
        return price

    def _day(self, product: str, day: object) -> list[tuple[str, Refusal]]:
        """What is wrong with a price's day beside today and the day of the price in the book."""
        assert isinstance(day, date)
        if day > self.today:
            message = f"This day is still to come (today is {self.today.isoformat()})."
            return [
                ("date", Refusal("future-date", message, "Take the price over on that day, or after it."))
            ]
        pack = self.book.products[product].pack if product in self.book.products else None
        if pack is not None and pack.price is not None and pack.priced_on and day < pack.priced_on:
            message = f"The price in the book is of {pack.priced_on.isoformat()}, and this one is older."
            mend = "Take the row out, or write the day on which this price was looked up."
            return [("date", Refusal("bad-price-list", message, mend))]
        return []


def _price_and_currency(text: str) -> tuple[str, str]:
    """A price's number, and the three letters beside it; empty where there are none."""
    found = WITH_CURRENCY.fullmatch(text)
    return (found[2] or found[3], found[1] or found[4]) if found else (text, "")


def is_shared(book: Book, product: str) -> bool:
    """Whether a product of the book is one that other books read too."""
    return book.products[product] is book.shared.get(product)
