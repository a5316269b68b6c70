"""What is retired in the bowls of a recipe that is in use: the warning at the top of its page."""

from bowlbook.book.book import Book
from bowlbook.book.current import retired_of
from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique
from bowlbook.figures.withdrawn import retired_in
from bowlbook.pages.link_list import LinkItem, link_to


def withdrawn_links(
    book: Book, recipe: Blend | Technique, start: str
) -> list[tuple[LinkItem, str, LinkItem | None]]:
    """What is retired in a recipe's bowls, why it is, and what takes its place: links from ``start``."""
    found = []
    for kind, entry_id in retired_in(book, recipe):
        entries = book.of_kind(kind)
        retired = retired_of(entries[entry_id])
        assert retired is not None
        instead = link_to(kind, entries[retired.instead], start) if retired.instead else None
        found.append((link_to(kind, entries[entry_id], start), retired.because, instead))
    return found
