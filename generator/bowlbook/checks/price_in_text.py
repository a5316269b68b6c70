"""A text that the public may read holds a price.

An amount with a currency's sign, letters or name, or a number that is the price of a pack of this book.

Why: a price in a note stands in every copy, stale, long after the pack's own was changed or left out.
Source: none needed; the letters are those of ISO 4217, as Babel carries them.
Wrong: `notes: The powder is $47.50 a tub, so scrape the bowl.`
Right: the price under the product's `pack`; in the notes, `The powder is dear, so scrape the bowl.`
"""

import re
from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.checks.texts import objections, shape_of, texts_with
from bowlbook.checks.unknown_currency import currencies
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.reading.finding import Finding

KINDS = ENTRY_KINDS
RETIRED_TOO = True

SIGNS = (
    "\u0024\u00a2-\u00a5\u058f\u060b\u07fe-\u07ff\u09f2-\u09f3\u09fb\u0af1\u0bf9\u0e3f\u17db\u20a0-\u20c0"
    "\ua838\ufdfc\ufe69\uff04\uffe0-\uffe1\uffe5-\uffe6"
)
"""The currency signs of Unicode (general category Sc) in its first plane."""
SIGNED = rf"[{SIGNS}]\s?\d|\d\s?[{SIGNS}]"
NAMED = re.compile(r"\d\s?(?=[EeDdCcFfRrYyQq])(?i:euros?|dollars?|cents?|francs?|franken|reais|yen|quid)\b")
"""Currencies' names that are no unit of weight, as pound and peso are. Common usage, no published source.
Their first letters rule out most texts sooner than the names."""
LETTERS = r"\b([A-Z]{3})\s?\d|\d\s?([A-Z]{3})\b"
UNIT = r"(?:(?:oz|fl|g|kg|m?[lL]|[cm]?m|h)\b|%|min|hour|vol|part|level|piece)"
PRICE = rf"(?<![\d.,:])(\d{{1,6}})[.,](\d{{2}})(?![\d.,:]|\s?{UNIT})"
"""A number with two decimals that is no amount of anything weighed, measured or timed."""
POINT, COMMA = map(re.compile, (r"\.\d\d", r",\d\d"))
"""No text with a price goes without one of these, a sign, a name or three capitals; each is quickly found.
The other patterns are compiled then."""


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """Findings at the price's line. None of what is said under a private key."""
    for loc, text in texts_with(entry, _may_have_price, public=True):
        message = "This looks like a price, and the public may read it here."
        mend = "Write prices under the product's pack, or this text under private."
        yield from objections(entry, loc, _prices_in(text, book.prices), message, mend, "error")


def _may_have_price(text: str) -> object:
    sign = "$" in text if text.isascii() else re.search(f"[{SIGNS}]", text)
    return sign or POINT.search(text) or COMMA.search(text) or b"AAA" in shape_of(text) or NAMED.search(text)


def _prices_in(text: str, prices: tuple[Fraction, ...]) -> Iterator[re.Match[str]]:
    yield from re.finditer(SIGNED, text)
    yield from NAMED.finditer(text)
    yield from (hit for hit in re.finditer(LETTERS, text) if (hit[1] or hit[2]) in currencies())
    yield from (hit for hit in re.finditer(PRICE, text) if Fraction(f"{hit[1]}.{hit[2]}") in prices)
