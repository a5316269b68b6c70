"""Two entries of a kind carry the same name.

Why: on the floor one is taken for the other.
Source: none needed; upper and lower case, spaces and hyphens make no difference.
Wrong: `name: Soft clay` and `name: soft-clay`.
Right: say what sets them apart.
"""

import unicodedata
from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.book.outline import Outline
from bowlbook.checks.first_alike import alike
from bowlbook.reading.finding import Finding


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the second name."""
    for _, outline, first in alike(book, _bare):
        message = f'"{first}" carries the same name.'
        yield outline.warning(message, "Say in the names what sets the two apart.")


def _bare(entry_id: str, outline: Outline) -> str:
    name = outline.name
    return "".join(filter(str.isalnum, unicodedata.normalize("NFKD", name.casefold())))
