"""A product's own text with a new pack in it: nothing else is touched, and it is read back strictly."""

from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple

from bowlbook.book.folder import EntryFile
from bowlbook.book.new_price import NewPrice
from bowlbook.book.read_book import read_entry
from bowlbook.entries.product import Pack, Product, packs_of, with_pack
from bowlbook.reading.guard import decode, unreadable
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc, Source

MARK = b"\xef\xbb\xbf"


class Repriced(NamedTuple):
    """A product with a new pack: as read from its changed text, and its file with old and new content."""

    product: Product
    path: Path
    old: bytes
    new: bytes


def repriced(product: Product, price: NewPrice, before: Repriced | None = None) -> Repriced:
    """The product's file with the new pack in it; not a comment, a line or an order else is touched.

    ``before``: the same product with another of its packs changed already.

    Raises `Refusal` where the text cannot be changed for certain; then it is to be changed by hand.
    """
    path = Path(product.source.path)
    try:
        old = path.read_bytes() if before is None else before.old
    except OSError as error:
        raise unreadable(error) from error
    if before is None and decode(old)[0] != product.source.text:
        raise Refusal("bad-price-list", "This file was changed meanwhile.", "Give the command again.")
    product = product if before is None else before.product
    text = _changed_text(product.source, price)
    return Repriced(_read_back(product, price, text), path, old, _as_stored(old, text))


def _changed_text(source: Source, price: NewPrice) -> str:
    wanted = {"net": price.net_text, "price": price.price_text, "priced_on": price.date_text}
    if price.currency is not None:
        wanted["currency"] = price.currency
    given: Any = source.data or {}
    for key in price.pack:
        given = given.get(key) if isinstance(given, dict) else given[key]
    if given is None:
        end = "" if source.text.endswith("\n") else "\n"
        row = ", ".join(f"{key}: {value}" for key, value in wanted.items())
        return f"{source.text}{end}pack: {{{row}}}\n"
    edits = [_edit(source, (*price.pack, key), given, value) for key, value in wanted.items()]
    text = source.text
    for start, end_at, new in sorted(edits, reverse=True):
        text = text[:start] + new + text[end_at:]
    return text


def _edit(source: Source, loc: Loc, pack: dict[str, Any], new: str) -> tuple[int, int, str]:
    """Where the text of a value stands, and what replaces it; a missing key goes right behind ``net``."""
    key = str(loc[-1])
    if key in pack:
        start, end = _span(source, loc, pack[key])
        return start, end, new
    net: Loc = (*loc[:-1], "net")
    start, end = _span(source, net, str(pack["net"]))
    if source.text[source.offset_of(loc[:-1])] == "{":
        return end, end, f", {key}: {new}"
    indent = " " * (source.place_of(net, key=True).column - 1)
    rest = source.text.find("\n", end)
    at = len(source.text) if rest < 0 else rest
    return at, at, f"\n{indent}{key}: {new}"


def _span(source: Source, loc: Loc, value: str) -> tuple[int, int]:
    """Start and end of a value's text, its quotation marks included."""
    start = source.offset_of(loc)
    for quote in ("", '"', "'"):
        written = f"{quote}{value}{quote}"
        if source.text.startswith(written, start):
            return start, start + len(written)
    raise _by_hand()


def _read_back(product: Product, price: NewPrice, text: str) -> Product:
    """The product that the changed text holds. Raises `Refusal` if anything but the pack is different."""
    read = read_entry(EntryFile("product", product.id, product.source.path), text.encode())
    found = dict(packs_of(product)).get(price.pack, Pack(net=price.net))
    currency = price.currency or found.currency
    pack = replace(found, net=price.net, price=price.price, priced_on=price.priced_on, currency=currency)
    wanted = with_pack(product, price.pack, pack)
    if read.entry != wanted or any(each.severity == "error" for each in read.findings):
        raise _by_hand()
    assert isinstance(read.entry, Product)
    return read.entry


def _as_stored(before: bytes, text: str) -> bytes:
    """A changed text as the file keeps it: its byte order mark and its line ends as they were.

    Raises `Refusal` where the file mixes line ends.
    """
    windows = before.count(b"\r\n")
    if windows and windows != before.count(b"\n"):
        raise _by_hand()
    marked = before.startswith(MARK)
    return (MARK if marked else b"") + (text.replace("\n", "\r\n") if windows else text).encode()


def _by_hand() -> Refusal:
    message = "The pack is written in a way that cannot be changed for certain."
    mend = "Write it as pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}, or change it by hand."
    return Refusal("bad-price-list", message, mend)
