"""A price list in CSV: read strictly, every mistake at its line, and taken over into the entries' text."""

import csv
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from pathlib import Path

from generator.book.book import Book
from generator.entries.product import Pack, Product
from generator.entries.validate import known_keys, private_keys, validate
from generator.reading import guard
from generator.reading.amount import Count, Mass, Volume, read_date, read_money, read_net
from generator.reading.document import read_text
from generator.reading.finding import Finding, finding_of, in_order
from generator.reading.nearest import did_you_mean
from generator.reading.place import Place
from generator.reading.refusal import Refusal
from generator.reading.source import Loc, Source

COLUMNS = ("product", "net", "price", "date")
MARK = b"\xef\xbb\xbf"
LARGEST = 1_000_000
"""Bytes of the largest list that is read."""


@dataclass(frozen=True, slots=True)
class NewPrice:
    """One row that can be taken over: the texts as written, and their values.

    ``currency``: what a shared product must say beside its price; None for one of the book's own.
    """

    product: str
    net_text: str
    price_text: str
    date_text: str
    net: Mass | Volume | Count
    price: Fraction
    priced_on: date
    currency: str | None = None


def read_price_list(path: Path, book: Book) -> tuple[list[NewPrice], list[Finding]]:
    """Read a list with the columns product, net, price, date, and currency if wanted, parted by , or ;.

    Every mistake in one go: no such product, a row twice, another currency than the house's, an amount that
    cannot be read. Rows with a mistake are left out.
    """
    try:
        text, _ = guard.decode(guard.read_bytes(path, LARGEST, links=True))
        if "\0" in text:
            raise Refusal(
                "control-character", "A control character stands in the list.", "Save it as plain CSV."
            )
    except Refusal as refusal:
        line, column = refusal.at
        return [], [_at(path, line, "", refusal, column)]
    return _rows(path, text, book)


def _rows(path: Path, text: str, book: Book) -> tuple[list[NewPrice], list[Finding]]:
    lines = text.splitlines()
    header = lines[0] if lines else ""
    reader = csv.reader(lines, delimiter=";" if header.count(";") > header.count(",") else ",", strict=True)
    found: list[NewPrice] = []
    findings: list[Finding] = []
    seen: dict[str, int] = {}
    names: list[str] = []
    try:
        for row in reader:
            line = reader.line_num
            shown = lines[line - 1]
            if not names:
                names = [cell.strip().lower() for cell in row]
                missing = [name for name in COLUMNS if name not in names]
                if missing or len(set(names)) != len(names):
                    raise Refusal(
                        "bad-price-list",
                        f"The first line must name the columns {', '.join(COLUMNS)}, each once.",
                        f"Missing: {', '.join(missing)}." if missing else "Name each column once.",
                    )
                continue
            if not any(cell.strip() for cell in row):
                continue
            if len(row) != len(names):
                message = f"This row has {len(row)} cells; the first line names {len(names)} columns."
                mend = "Put a cell that holds a comma in quotes."
                findings.append(_at(path, line, shown, Refusal("bad-price-list", message, mend)))
                continue
            cells = dict(zip(names, (cell.strip() for cell in row), strict=True))
            price, wrong = _row(cells, book)
            before = seen.setdefault(cells["product"], line)
            if before != line:
                message = f'"{cells["product"][:60]}" already has a row on line {before}.'
                wrong.append(("product", Refusal("duplicate-reference", message, "Keep one of them.")))
            starts = _starts(shown, row)
            findings += [
                _at(path, line, shown, refusal, starts[names.index(name)]) for name, refusal in wrong
            ]
            if price is not None and not wrong:
                found.append(price)
    except csv.Error as error:
        broken = Refusal("bad-price-list", f"This is no CSV: {error}.", "Close every quotation mark.")
        findings.append(_at(path, max(reader.line_num, 1), "", broken))
    except Refusal as refusal:
        findings.append(_at(path, 1, header, refusal))
    if not names:
        empty = Refusal("empty-file", "The list is empty.", f"Its first line is: {','.join(COLUMNS)}")
        findings.append(_at(path, 1, "", empty))
    return found, in_order(findings)


def _row(cells: dict[str, str], book: Book) -> tuple[NewPrice | None, list[tuple[str, Refusal]]]:
    """One row's values, or what is wrong with which of its cells."""
    wrong: list[tuple[str, Refusal]] = []
    product = cells["product"]
    if product not in book.products:
        mend = did_you_mean(product, book.products) or "Use the product's id: the name of its file."
        wrong.append(("product", Refusal("unknown-id", f'There is no product "{product[:60]}".', mend)))
    currency = book.house.currency
    if cells.get("currency", currency).upper() != currency:
        message = f"The house reckons in {currency}, and this row does not."
        wrong.append(("currency", Refusal("mixed-currency", message, f"Give the price in {currency}.")))
    values: dict[str, object] = {}
    price = cells["price"].removesuffix(currency).removeprefix(currency).strip()
    for name, text, read in (
        ("net", cells["net"], read_net),
        ("price", price, read_money),
        ("date", cells["date"], read_date),
    ):
        try:
            values[name] = read(text)
        except Refusal as refusal:
            code = "mixed-currency" if name == "price" and any(map(str.isalpha, text)) else refusal.code
            wrong.append((name, Refusal(code, refusal.message, refusal.mend)))
    if wrong:
        return None, wrong
    net, amount, day = values["net"], values["price"], values["date"]
    assert isinstance(net, Mass | Volume | Count) and isinstance(amount, Fraction) and isinstance(day, date)
    said = currency if is_shared(book, product) else None
    return NewPrice(product, cells["net"], price, cells["date"], net, amount, day, said), []


def is_shared(book: Book, product: str) -> bool:
    """Whether a product of the book is one that other books read too."""
    return book.products[product] is book.shared.get(product)


def _starts(shown: str, row: list[str]) -> list[int]:
    """The column at which each cell of a line begins; 1 for all where quotation marks make that unsure."""
    if '"' in shown:
        return [1] * len(row)
    starts, at = [], 1
    for cell in row:
        starts.append(at + len(cell) - len(cell.lstrip()))
        at += len(cell) + 1
    return starts


def _at(path: Path, line: int, shown: str, refusal: Refusal, column: int = 1) -> Finding:
    return finding_of(refusal, Place(str(path), line, column), shown[:160])


def with_prices(book: Book, prices: list[NewPrice]) -> Book:
    """The book as it would be with these prices."""
    products = dict(book.products)
    for each in prices:
        products[each.product] = _priced(products[each.product], each)
    return replace(book, products=products)


def _priced(product: Product, price: NewPrice) -> Product:
    """The product with the new pack."""
    pack = product.pack or Pack(net=price.net)
    pack = replace(pack, net=price.net, price=price.price, priced_on=price.priced_on)
    made = replace(product, pack=replace(pack, currency=price.currency or pack.currency))
    made.placed(product.id, product.source)
    return made


def taken_over(product: Product, price: NewPrice) -> str:
    """The product's own text with the new pack in it; not a comment, a line or an order else is touched.

    Raises `Refusal` where the text cannot be changed for certain; then it is to be changed by hand.
    """
    source = product.source
    wanted = {"net": price.net_text, "price": price.price_text, "priced_on": price.date_text}
    if price.currency is not None:
        wanted["currency"] = price.currency
    given = (source.data or {}).get("pack")
    if given is None:
        end = "" if source.text.endswith("\n") else "\n"
        row = ", ".join(f"{key}: {value}" for key, value in wanted.items())
        text = f"{source.text}{end}pack: {{{row}}}\n"
    else:
        edits = [_edit(source, key, given.get(key), value) for key, value in wanted.items()]
        text = source.text
        for start, end_at, new in sorted(edits, reverse=True):
            text = text[:start] + new + text[end_at:]
    _same_but_for_the_pack(product, price, text)
    return text


def as_stored(before: bytes, text: str) -> bytes:
    """A changed text as the file keeps it: its byte order mark and its line ends as they were.

    Raises `Refusal` where the file mixes line ends.
    """
    windows = before.count(b"\r\n")
    if windows and windows != before.count(b"\n"):
        raise _by_hand()
    marked = before.startswith(MARK)
    return (MARK if marked else b"") + (text.replace("\n", "\r\n") if windows else text).encode()


def _edit(source: Source, key: str, old: str | None, new: str) -> tuple[int, int, str]:
    """Where the text of a value stands, and what replaces it; a missing key goes right behind ``net``."""
    loc: Loc = ("pack", key)
    if old is not None:
        start, end = _span(source, loc, old)
        return start, end, new
    start, end = _span(source, ("pack", "net"), str((source.data or {})["pack"]["net"]))
    line = source.keys[("pack", "net")][0]
    if line == source.keys[("pack",)][0]:
        return end, end, f", {key}: {new}"
    indent = " " * (source.keys[("pack", "net")][1] - 1)
    rest = source.text.find("\n", end)
    at = len(source.text) if rest < 0 else rest
    return at, at, f"\n{indent}{key}: {new}"


def _span(source: Source, loc: Loc, value: str) -> tuple[int, int]:
    """Start and end of a value's text, its quotation marks included."""
    line, column = source.values[loc]
    start = sum(len(each) + 1 for each in source.text.split("\n")[: line - 1]) + column - 1
    for quote in ("", '"', "'"):
        written = f"{quote}{value}{quote}"
        if source.text.startswith(written, start):
            return start, start + len(written)
    raise _by_hand()


def _same_but_for_the_pack(product: Product, price: NewPrice, text: str) -> None:
    """Reads the changed text back: the new pack, and everything else as it was. Raises `Refusal` else."""
    source, findings = read_text(text, product.source.path, private_keys(), known_keys())
    entry, more = validate("product", product.id, source)
    if entry != _priced(product, price) or any(each.severity == "error" for each in (*findings, *more)):
        raise _by_hand()


def _by_hand() -> Refusal:
    return Refusal(
        "bad-price-list",
        "The pack is written in a way that cannot be changed for certain.",
        "Write it as pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}, or change it by hand.",
    )
