"""One row of a price list: its cells as a new price of a product of the book, or what is wrong with which."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple, TypeVar

from bowlbook.book.book import Book
from bowlbook.book.named_product import named_product, pack_meant
from bowlbook.entries.product import packs_of
from bowlbook.reading.amount import Count, Mass, Volume
from bowlbook.reading.finding import Finding, Severity, finding_of
from bowlbook.reading.place import Place
from bowlbook.reading.read_amount import read_date, read_money, read_net
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc

T = TypeVar("T")
COMMA = re.compile(r"(?<![0-9.,])([0-9]+),([0-9]{1,2})(?![0-9.,])")
GROUPS = re.compile(r"(?<![0-9.,])([0-9]{1,3})((?:\.[0-9]{3})+),([0-9]{1,2})(?![0-9.,])")
WITH_CURRENCY = re.compile(r"([A-Za-z]{3})\s*([0-9].*)|(.*[0-9])\s*([A-Za-z]{3})")


class PriceRow(NamedTuple):
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

    ``pack``: the place of the pack in the product.
    ``currency``: what a shared product must say beside its price; None for one of the book's own.
    """

    product: str
    pack: Loc
    net_text: str
    price_text: str
    date_text: str
    net: Mass | Volume | Count
    price: Fraction
    priced_on: date
    currency: str | None
    row: PriceRow


class PriceRowReader(NamedTuple):
    """Reads rows for one book on one day; ``decimals`` of its currency."""

    book: Book
    today: date
    decimals: int

    def read(self, cells: dict[str, str], row: PriceRow) -> tuple[NewPrice | None, list[tuple[str, Refusal]]]:
        """One row's values, or what is wrong with which of its cells."""
        wrong: list[tuple[str, Refusal]] = []
        at: Loc = ("pack",)
        cells = {**cells, **{name: with_point(cells.get(name, "")) for name in ("net", "price")}}
        try:
            named = cells.get("product", ""), cells.get("article", ""), cells.get("supplier", "")
            cells["product"] = named_product(self.book.products, *named)
            at = pack_meant(self.book.products[cells["product"]], *named[1:])
        except Refusal as refusal:
            wrong.append(("product" if cells.get("product") else "article", refusal))

        def value(name: str, read: Callable[[str], T]) -> T | None:
            try:
                return read(cells.get(name, ""))
            except Refusal as refusal:
                wrong.append((name, refusal))
                return None

        value("currency", self._currency)
        net, price = value("net", read_net), value("price", self._price)
        day = value("date", read_date)
        if day is not None:
            wrong += self._day(cells.get("product", ""), at, day)
        if wrong or net is None or price is None or day is None:
            return None, wrong
        text, product = _price_and_currency(cells["price"])[0], cells["product"]
        currency = self.book.house.currency if is_shared(self.book, product) else None
        return NewPrice(product, at, cells["net"], text, cells["date"], net, price, day, currency, row), []

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
            message = f"A price in {self.book.house.currency} has {have}."
            mend = f"Write {' or '.join(near)}, as the supplier's bill says."
            raise Refusal("bad-amount", message, mend)
        return price

    def _day(self, product: str, at: Loc, day: date) -> list[tuple[str, Refusal]]:
        """What is wrong with a price's day beside today and the day of the price in the book."""
        if day > self.today:
            message = f"This day is still to come (today is {self.today.isoformat()})."
            mend = "Take the price over on that day, or after it."
            return [("date", Refusal("future-date", message, mend))]
        found = self.book.products.get(product)
        pack = dict(packs_of(found)).get(at) if found else None
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


def with_point(text: str) -> str:
    """An amount with a point where its comma is certainly a decimal one: before one or two digits.

    ``31,90`` and ``1.234,50``; not ``1,234``, which may be thousands.
    """
    text = GROUPS.sub(lambda found: f"{found[1]}{found[2].replace('.', '')}.{found[3]}", text)
    return COMMA.sub(r"\1.\2", text)
