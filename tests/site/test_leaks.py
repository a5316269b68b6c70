"""The public's copy holds nothing private: a marker for every private value, looked for in every byte."""

import base64
import os
import re
from pathlib import Path

import pytest
from leaks import ENCODINGS, PRICE, WORD, YEAR, leaks_in, leaks_of, marked

from bench.synthetic import write_book
from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.checks.judge import Judgement
from bowlbook.site.engine import build_into

ROOT = Path(__file__).parents[2]
SHORT = os.environ.get("BOWLBOOK_LONG") == "short"


def built(book: Book, folder: Path, audience: str) -> Path:
    warnings: list[str] = []
    build_into(folder, ROOT / "mkdocs.yml", Judgement(book, []), warnings.append, audience=audience)
    assert warnings == []
    return folder


@pytest.mark.long
def test_the_demo_book(demo_book: Book, tmp_path: Path) -> None:
    book, count = marked(demo_book)
    assert count > 150
    found, files = leaks_of(built(book, tmp_path / "site", "public"))
    assert found == [] and files > 200
    assert not (tmp_path / "site" / "reports" / "costs").exists()
    for path in (tmp_path / "site").rglob("*.html"):  # nor anything reckoned from a price
        if "reference" not in path.parts:
            assert not re.search(rb"\$\s?[0-9]", path.read_bytes()), path


def test_a_small_book(tmp_path: Path) -> None:
    write_book(tmp_path / "recipes", 6)
    book = read_book(tmp_path / "recipes").book
    assert book is not None
    found, files = leaks_of(built(marked(book)[0], tmp_path / "site", "public"))
    assert found == [] and files > 150


@pytest.mark.long
def test_the_teams_copy_has_them(tmp_path: Path) -> None:
    """What is looked for would be found: a book for the team holds words, prices and dates."""
    write_book(tmp_path / "recipes", 6)
    book = read_book(tmp_path / "recipes").book
    assert book is not None
    book, _ = marked(book)
    found, _ = leaks_of(built(book, tmp_path / "site", "team"))
    assert {"plain", "price", "date of a price"} <= {label for _, label in found}
    assert {Path(name).suffix for name, _ in found} >= {".html", ".pack"}


@pytest.mark.long
@pytest.mark.parametrize("seed", range(4 if SHORT else 50))
def test_generated_books(seed: int, tmp_path: Path) -> None:
    write_book(tmp_path / "recipes", 6 + seed % 7, seed=100 + seed)
    book = read_book(tmp_path / "recipes").book
    assert book is not None
    book, count = marked(book)
    found, files = leaks_of(built(book, tmp_path / "site", "public"))
    assert found == [] and count > 60 and files > 150


def test_every_encoding_is_seen() -> None:
    whole = f"a{WORD}17b"
    written = {
        "plain": whole,
        "reversed case": whole.swapcase(),
        "reversed": whole[::-1],
        "decimal entities": "".join(f"&#{ord(sign)};" for sign in whole),
        "hexadecimal entities": "".join(f"&#x{ord(sign):X};" for sign in whole),
        "URL": "".join(f"%{ord(sign):02x}" for sign in whole),
        "JSON escapes": "".join(f"\\u{ord(sign):04X}" for sign in whole),
        "hex": whole.encode().hex().upper(),
        "UTF-16": "x",
    }
    for label, text in written.items():
        content = whole.encode("utf-16-le") if label == "UTF-16" else f"<p>{text}</p>".encode()
        assert label in set(leaks_in("x.html", content)), label
    for before in range(6):
        text = b"\xff" * before + whole.encode() + b"\xfe\xfd\xfc"
        for label, encode in (
            ("base64", base64.b64encode),
            ("base64, URL", base64.urlsafe_b64encode),
            ("base32", base64.b32encode),
        ):
            assert label in set(leaks_in("x", encode(text))), (label, before)
    assert set(ENCODINGS) == {*written, "base64", "base64, URL", "base32"}
    assert "plain" in set(leaks_in(f"{WORD}.html", b""))
    for price in (f"{PRICE:,}.05", f"{PRICE:,}".replace(",", "\u202f"), f"${PRICE}05", "48,27,193.05"):
        assert "price" in set(leaks_in("x", price.encode())), price
    for day in (f"{YEAR}-03-07", f"7 March {YEAR}", f"07.03.{YEAR}"):
        assert "date of a price" in set(leaks_in("x", day.encode())), day
    assert list(leaks_in("x.html", b"<p>An entry.</p>")) == []
