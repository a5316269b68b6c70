"""The QR code of a card (ISO/IEC 18004): read back, and as large and as robust as another encoder makes it.

The encoder is segno, which shares no code with that of the cards (zint, in zxing-cpp); the reader is zxing's,
which shares none with either.
"""

import re

import pytest
import segno
import zxingcpp

from bowlbook.pages.cards.card import MASK, _qr

QUIET = 4
"""Modules of the quiet zone at least: ISO/IEC 18004 (from memory)."""
SCALE = 3
"""Pixels of a module."""
SITE = "https://salon.example/"


ADDRESSES = [SITE + ("ash-" * 50)[:signs] + "/" for signs in (*range(1, 41), 200)]


def drawn(code: str) -> list[bytearray]:
    """The modules of a drawn code by rows, quiet zone and all: 0 is dark, 255 light."""
    size = int(re.search(r'viewBox="0 0 (\d+) \1"', code)[1])
    rows = [bytearray(b"\xff" * size) for _ in range(size)]
    path = re.search(r' d="M0 \.5((?:m-?\d+ \d+h\d+)+)"/>', code)[1]
    x = y = 0
    for line in re.findall(r"m(-?\d+) (\d+)h(\d+)", path):
        right, down, length = map(int, line)
        x, y = x + right, y + down
        rows[y][x : x + length] = bytes(length)
        x += length
    assert {len(row) for row in rows} == {size}
    return rows


def read(modules: list[bytearray]) -> zxingcpp.Barcode:
    """What a reader finds on the picture of these modules."""
    wide = [bytes(each for each in row for _ in range(SCALE)) for row in modules]
    size = len(wide) * SCALE
    picture = b"".join(row * SCALE for row in wide)
    (found,) = zxingcpp.read_barcodes(memoryview(picture).cast("B", (size, size)))
    return found


@pytest.mark.parametrize("address", ADDRESSES)
def test_as_large_and_as_robust_as_another_encoder_makes_it(address: str) -> None:
    modules = drawn(_qr(address))
    found = read(modules)
    assert (found.text, found.extra["DataMask"]) == (address, MASK)
    expected = segno.make(address, error="m", micro=False)  # takes a higher level where it fits
    assert (len(modules) - 2 * QUIET, found.extra["ECLevel"]) == (len(expected.matrix), expected.error)
    edge = [*modules[:QUIET], *modules[-QUIET:], *(row[:QUIET] + row[-QUIET:] for row in modules)]
    assert not any(row.count(0) for row in edge)


@pytest.mark.parametrize(
    "path", ["blends/6-percent-2026-11-25/", "blends/000123456789012345/", "a&b\\n<c>[d]/", "büro/", "świt/"]
)
def test_any_address_is_read_back(path: str) -> None:
    assert read(drawn(_qr(SITE + path))).text == SITE + path


def test_a_card_with_a_blot_is_read() -> None:
    modules = drawn(_qr(ADDRESSES[20]))
    for row in modules[12:18]:
        row[12:18] = b"\xff" * 6
    assert read(modules).text == ADDRESSES[20]
