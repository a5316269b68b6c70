"""Decks: the cards of the whole house, or of a class, printed together."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from markupsafe import Markup

from bowlbook.book.book import Book, EntryKey
from bowlbook.book.current import ids_by_name
from bowlbook.entries.blend import Blend
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.technique import Technique
from bowlbook.figures.withdrawn import retired_in, withdrawn_recipes
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.cards.print_document import print_document
from bowlbook.pages.page import Document

DECK_SIZE = 120
"""Cards in one deck at most; a larger house has several."""


class Deck(NamedTuple):
    """Cards printed together: where, under which title, and the kind and id of each entry."""

    address: str
    title: str
    entries: tuple[EntryKey, ...]


def class_deck_address(notes: ClassNotes) -> str:
    """The address of the deck for a class."""
    return f"{entry_address('class', notes.id)}cards/"


def house_decks(book: Book) -> list[Deck]:
    """The whole house in decks: blends by name, then techniques; without what is not to be mixed."""
    withdrawn = withdrawn_recipes(book)
    entries = [
        (kind, entry_id)
        for kind, found in (("blend", book.blends), ("technique", book.techniques))
        for entry_id in ids_by_name(found)
        if (kind, entry_id) not in withdrawn
    ]
    chunks = [entries[start : start + DECK_SIZE] for start in range(0, len(entries), DECK_SIZE)]
    decks = []
    for number, chunk in enumerate(chunks, 1):
        title = "The whole house" if len(chunks) == 1 else f"The whole house, {number} of {len(chunks)}"
        decks.append(Deck(f"cards/house-{number}/", title, tuple(chunk)))
    return decks


def class_deck(book: Book, notes: ClassNotes) -> Deck:
    """The deck of a class: the techniques that it shows, each followed by its blends."""
    entries: dict[EntryKey, None] = {}
    ids = [each.technique for each in notes.demonstrations]
    ids += [item.technique for item in notes.outline if item.technique]
    # One card each, however often a class shows the technique.
    for technique_id in dict.fromkeys(ids):
        technique = book.techniques[technique_id]
        shown: dict[EntryKey, Blend | Technique] = {("technique", technique_id): technique}
        shown |= {("blend", bowl.blend): book.blends[bowl.blend] for bowl in technique.bowls}
        entries |= dict.fromkeys(key for key, entry in shown.items() if not retired_in(book, entry))
    return Deck(class_deck_address(notes), notes.name, tuple(entries))


def deck_of(book: Book, address: str, title: str, pieces: Sequence[Markup]) -> Iterator[Document]:
    """A deck's document from cards that are rendered already, in the deck's order; none without cards."""
    if pieces:
        back = relative(address.rsplit("/", 2)[0] + "/", address)
        yield print_document(book, address, title, pieces, back)
