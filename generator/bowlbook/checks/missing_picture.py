"""An entry names a picture that is not in the book's folder pictures.

Why: the place stays empty on every phone, and nobody at the desk sees it.
Source: none needed.
Wrong: `file: back-section.jpg` without a file `recipes/pictures/back-section.jpg`.
Right: the file put there, under the name that the entry says.
"""

from collections.abc import Iterator
from datetime import date
from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.picture import pictures_in
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean

KINDS = ("product", "technique", "situation", "class")
RETIRED_TOO = True


def find(book: Book, entry: Any, today: date) -> Iterator[Finding]:
    """A finding at the file's name."""
    for loc, picture in pictures_in(entry):
        if picture.file not in book.pictures:
            message = "There is no such picture in the book's folder pictures."
            mend = did_you_mean(picture.file, book.pictures) or "Put the file there."
            yield entry.source.objection((*loc, "file"), message, mend)
