"""Two ids of a kind look alike.

Why: a recipe that names the one is read as if it named the other, by people and in a review.
Source: none needed; 0 and o, 1, i and l, rn and m, vv and w are held for the same, and hyphens for nothing.
Wrong: `products/clay-10.yml` beside `products/clay-1o.yml`.
Right: ids that differ in a word or in a digit that nobody misreads.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.book.outline import Outline
from bowlbook.checks.first_alike import alike
from bowlbook.reading.finding import Finding

ALIKE = (("rn", "m"), ("vv", "w"), ("0", "o"), ("1", "l"), ("i", "l"), ("-", ""))


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the later entry's name."""
    for entry_id, outline, first in alike(book, _as_seen):
        yield outline.warning(
            f'The id "{entry_id}" looks like "{first}".',
            "Rename one of the two; name its former id under formerly.",
        )


def _as_seen(entry_id: str, outline: Outline) -> str:
    seen = entry_id
    for sign, other in ALIKE:
        seen = seen.replace(sign, other)
    return seen
