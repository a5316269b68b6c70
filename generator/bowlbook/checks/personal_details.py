"""A text looks like somebody's contact details.

Why: client records do not belong in a published book.
Source: none needed; an e-mail address or a telephone number of nine digits or more is what is looked for.
Wrong: `private: Mira, 555 0123 4567, wants the cool one`.
Right: say what hair it was.
"""

import re
from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.checks.texts import objections, shape_of, texts_with
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.reading.finding import Finding

KINDS = ENTRY_KINDS
RETIRED_TOO = True

MAIL = r"[\w.+-]{1,64}@[\w-]{1,63}(?:\.[\w-]{2,63}){1,4}"
PHONE = r"(?<![\d.:/-])\+?\(?\d{2,4}\)?(?:[ ./-]?\d{2,4}){2,5}(?![\d:])"
NINE = r"(?:\d[ )./-]{0,2}+){8}\d"
"""What every such number has in it: nine digits, and between them a bracket and a sign at most."""


def _may_have_some(text: str) -> object:
    return "@" in text or (b"000000000" in shape_of(text, b" )./-") and re.search(NINE, text))


def find(book: Book, entry: Entry, today: date) -> Iterator[Finding]:
    """Warnings at the line."""
    for loc, text in texts_with(entry, _may_have_some):
        mails, numbers = re.finditer(MAIL, text), re.finditer(PHONE, text)
        hits = [*mails, *(hit for hit in numbers if _is_phone(hit[0]))]
        message = "This looks like somebody's contact details."
        mend = "Take them out: a book holds recipes, not people."
        yield from objections(entry, loc, hits, message, mend)


def _is_phone(text: str) -> bool:
    if re.fullmatch(r"\d{4}[-./]\d{2}[-./]\d{2}", text):
        return False
    groups = re.findall(r"\d+", text)
    return 9 <= sum(map(len, groups)) <= 15 and max(map(len, groups)) >= 3
