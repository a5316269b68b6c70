"""A product or a blend that nothing uses.

Why: the recipe or the technique that should name it was forgotten; or nobody said that it is no longer used.
Source: none needed. A blend that suits some heads is an answer to them, and so it is used.
Wrong: a lightener that no blend names; a blend for any head that no technique or situation names.
Right: name it where it belongs; say what a product is kept for (`kept_for`); or retire it. A shared product
may be another book's.
"""

from collections.abc import Iterator, Mapping
from datetime import date

from bowlbook.book.book import Book, EntryKey
from bowlbook.book.outline import Outline
from bowlbook.reading.finding import Finding


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the entry's name."""
    if not book.whole:
        return  # what could not be read may be what uses it
    outlines = book.outlines()
    for (kind, entry_id), outline in outlines.items():
        if kind not in ("product", "blend") or outline.retired:
            continue
        users = book.used_by.get((kind, entry_id), ())
        # That something goes wrong with it, or that it was in a retired recipe, is no use of it.
        if any(user[0] != "trouble" and not _is_retired(outlines, user) for user in users):
            continue
        if outline.kept or _is_shared(book, entry_id, kind):
            continue
        use = "what it is kept for (kept_for)" if kind == "product" else "which heads it suits"
        yield outline.warning(
            f"No other entry uses this {kind}.", f"Name it where it belongs, say {use}, or retire it."
        )


def _is_retired(outlines: Mapping[EntryKey, Outline], user: EntryKey) -> bool:
    return user in outlines and outlines[user].retired


def _is_shared(book: Book, entry_id: str, kind: str) -> bool:
    """Whether it is a shared product, which another book may use."""
    return kind == "product" and book.products[entry_id] is book.shared.get(entry_id)
