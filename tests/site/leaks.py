"""Private values replaced by markers, wherever a book declares them, and the search for any trace of one.

A marker is a word no book holds, a price no product costs, a year no price is from. It is looked for in every
byte of a site, packs unpacked, in each of `ENCODINGS`.
"""

import base64
import gzip
import re
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any, get_type_hints
from urllib.parse import quote

from packs import files_of

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry, is_part
from bowlbook.entries.product import Pack
from bowlbook.entries.trade_word import TradeWord
from bowlbook.reading.amount import Mass

WORD = "Zqxjkvwy"
PRICE = 4827193
YEAR = 1987


def marked(book: Book) -> tuple[Book, int]:
    """The book with a marker in every private field, and how many there are."""
    count = [0]
    kinds = {
        name: {entry_id: _filled(entry, count) for entry_id, entry in getattr(book, name).items()}
        for name in ("products", "blends", "techniques", "situations", "classes")
    }
    return replace(book, house=_filled(book.house, count), **kinds), count[0]


def _filled(part: Any, count: list[int]) -> Any:
    hints = get_type_hints(type(part))
    values = {}
    for spec in fields(part):
        if spec.init:
            value = getattr(part, spec.name)
            if not spec.metadata.get("public", False):
                count[0] += 1
                value = _marker(str(hints[spec.name]), count[0])
            elif isinstance(value, tuple):
                value = tuple(_filled(each, count) if is_part(each) else each for each in value)
            elif is_part(value):
                value = _filled(value, count)
            values[spec.name] = value
    made = type(part)(**values)
    if isinstance(part, Entry):
        made.placed(part.id, part.source)
    return made


def _marker(hint: str, number: int) -> Any:
    if hint in ("<class 'str'>", "typing.Optional[str]"):
        return f"{WORD}{number}"
    if "Fraction" in hint:
        return Fraction(PRICE) + Fraction(number % 100, 100)
    if "date" in hint:
        return date(YEAR, 1 + number % 12, 1 + number % 28)
    if "TradeWord" in hint:
        return (TradeWord(typed=(f"{WORD}{number}",), means=("blend",)),)
    if "Pack" in hint:
        return (_filled(Pack(net=Mass(Fraction(450), "g")), [number * 1000]),)
    raise TypeError(f"a private field of a kind that this test does not know: {hint}")


def _aligned(encode: Callable[[bytes], bytes], size: int) -> list[bytes]:
    """What a text becomes in a code of ``size`` bytes a group, wherever in the group it begins."""
    found = []
    for before in range(size):
        whole = encode(b"\0" * before + WORD.encode())
        per = len(encode(b"\0" * size)) / size
        start = -(-before * per // 1)
        found.append(whole.rstrip(b"=")[int(start) + 1 : -2])
    return found


def _each(form: str) -> list[bytes]:
    return ["".join(form.format(ord(sign)) for sign in WORD).encode()]


ENCODINGS: dict[str, list[bytes]] = {
    "plain": [WORD.encode()],
    "reversed case": [WORD.swapcase().encode(), WORD.upper().encode(), WORD.lower().encode()],
    "reversed": [WORD[::-1].encode()],
    "decimal entities": _each("&#{};"),
    "hexadecimal entities": _each("&#x{:x};"),
    "URL": _each("%{:02X}"),
    "JSON escapes": _each("\\u{:04x}"),
    "hex": [WORD.encode().hex().encode()],
    "base64": _aligned(base64.b64encode, 3),
    "base64, URL": _aligned(base64.urlsafe_b64encode, 3),
    "base32": _aligned(base64.b32encode, 5),
    "UTF-16": [WORD.encode("utf-16-le"), WORD.encode("utf-16-be")],
}
assert quote(WORD) == WORD  # so that plain is also what a well-behaved URL holds

BETWEEN = re.compile(rb"(?<=\d)(?:[,.'\s]|\xc2\xa0|\xe2\x80\xaf|\xe2\x80\x99)(?=\d)")
A_YEAR = re.compile(rb"(?<![0-9A-Za-z])%d(?![0-9A-Za-z])" % YEAR)


def leaks_in(name: str, content: bytes) -> Iterator[str]:
    """Each trace of a marker in a file's name or bytes."""
    low = content.lower()
    for label, forms in ENCODINGS.items():
        if any(form.lower() in low or form.lower() in name.lower().encode() for form in forms):
            yield label
    if str(PRICE).encode() in BETWEEN.sub(b"", content):
        yield "price"
    if A_YEAR.search(content):
        yield "date of a price"


def leaks_of(site: Path) -> tuple[list[tuple[str, str]], int]:
    """Every leak of a site as (file, encoding), and how many files were looked through."""
    found, files = [], [path for path in sorted(site.rglob("*")) if path.is_file()]
    for path in files:
        content = path.read_bytes()
        if path.suffix == ".pack":  # but the sizes of its files, any of which may be a year
            content = b"\n".join(
                b"%s\n%s" % (each.encode(), of) for each, (_, of) in files_of(content).items()
            )
        elif path.suffix == ".gz":
            content = gzip.decompress(content)
        name = path.relative_to(site).as_posix()
        found += [(name, label) for label in leaks_in(name, content)]
    return found, len(files)
