"""A picture in the book's folder that no entry shows.

Why: it was forgotten, or it is large and goes with every copy of the book for nothing.
Source: none needed.
Wrong: `recipes/pictures/back-section.jpg`, named nowhere.
Right: name it under `pictures` where it belongs, or take it out of the book.
"""

from collections.abc import Iterator
from datetime import date
from typing import Any

from bowlbook.book.book import Book
from bowlbook.checks.missing_picture import KINDS as WITH_PICTURES
from bowlbook.entries.picture import pictures_in
from bowlbook.reading.finding import Finding


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the file."""
    if not book.pictures or not book.whole:
        return  # what could not be read may be what shows it
    entries: list[Any] = [entry for kind in WITH_PICTURES for entry in book.of_kind(kind).values()]
    shown = {picture.file for entry in entries for _, picture in pictures_in(entry)}
    for name, picture in book.pictures.items():
        if name not in shown:
            yield picture.warning(
                "No entry shows this picture.",
                "Name it under pictures where it belongs, or take it out of the folder.",
            )
