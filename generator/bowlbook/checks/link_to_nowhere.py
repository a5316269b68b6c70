"""A link in a text does not lead to a page of the web.

Why: a text stands on several pages of the site, and a link from one would break on the others; so it is shown
without the link.
Source: none needed; links are those of Markdown.
Wrong: `notes: Place it as in [open painting](../techniques/painting).`
Right: a link that begins with `https://`; entries are linked where a key names them.
"""

import re
from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.checks.texts import objections, texts_with
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.reading.finding import Finding

KINDS = ENTRY_KINDS
RETIRED_TOO = True

LINK = r"(?m)!\[[^\]\n]*\]\([^)\n]*\)|\]\(\s*<?([^)\s>]*)|^ {0,3}\[[^\]\n]+\]:\s*<?([^\s>]*)"
WEB = r"(?i)https?://[^\s/]"


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """Warnings at the link's line."""
    for loc, text in texts_with(entry, lambda text: "]" in text):
        links = (hit for hit in re.finditer(LINK, text) if hit[0][0] != "!")  # a picture is picture-in-text's
        hits = (hit for hit in links if not re.match(WEB, hit[1] or hit[2] or ""))
        message = "A link in this text does not lead to a page of the web."
        mend = "Begin its address with https://, or name the entry without a link."
        yield from objections(entry, loc, hits, message, mend)
