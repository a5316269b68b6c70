"""A picture is named within a text, where the site shows none.

Why: free text is cleaned before it is shown, and the picture would vanish without a word.
Source: none needed.
Wrong: `notes: See ![the back](back-section.jpg).`
Right: the file in the folder `pictures`, and the picture under `pictures`.
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
PICTURE = r"(?i)!\[[^\]\n]*\]|<img\b"


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """A warning at each line with a picture."""
    for loc, text in texts_with(entry, lambda text: "![" in text or "<" in text):
        message = "A text cannot hold a picture; it would be left out."
        mend = "Put the file into the book's folder pictures, and name it under pictures."
        yield from objections(entry, loc, re.finditer(PICTURE, text), message, mend)
