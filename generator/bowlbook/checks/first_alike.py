"""Entries of one kind that look alike in some way. Not a check itself."""

from collections.abc import Callable, Iterator

from bowlbook.book.book import Book
from bowlbook.book.outline import Outline


def alike(book: Book, seen_as: Callable[[str, Outline], str]) -> Iterator[tuple[str, Outline, str]]:
    """Each entry that is seen as an earlier one of its kind: its id, its outline, and the id of the first.

    ``seen_as`` is given an entry's id and outline.
    """
    first: dict[tuple[str, str], str] = {}
    for (kind, entry_id), outline in book.outlines().items():
        if outline.retired:
            continue  # it may be called as the entry that has taken its place
        earlier = first.setdefault((kind, seen_as(entry_id, outline)), entry_id)
        if earlier != entry_id:
            yield entry_id, outline, earlier
