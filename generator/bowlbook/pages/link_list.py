"""Lists of links to entries, and the list of entries that use one."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.book.folder import FOLDER_OF
from bowlbook.book.lazy_entries import outline_at
from bowlbook.entries.entry import Entry
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.list_row import ListRow
from bowlbook.reading.amount import counted
from bowlbook.wording.entry import KIND_TITLES, name_of

ONE_OF = {"Hair situations": "situation", "Blends": "blend", "Techniques": "technique", "Products": "product"}
ONE_OF["Class notes"] = "class note"
"""One of what a list of uses is titled with."""


class LinkItem(NamedTuple):
    """A link with a name and, under it, a note. ``row``: what a list shows in the place of the note."""

    name: str
    href: str
    note: str | None = None
    row: ListRow | None = None


class LinkGroup(NamedTuple):
    """Links under a title. An empty title has no heading."""

    title: str
    anchor: str
    items: tuple[LinkItem, ...]

    def ends(self) -> tuple[str, str]:
        """The names of the first and the last link, for naming a page of a long list."""
        return self.items[0].name, self.items[-1].name


def link_to(kind: str, entry: Entry, start: str, note: str | None = None) -> LinkItem:
    """A link to an entry from the page at ``start``."""
    name = f"{name_of(entry)} (retired)" if is_retired(entry) else name_of(entry)
    return LinkItem(name, relative(entry_address(kind, entry.id), start), note)


def where_used(book: Book, kind: str, entry: Entry, start: str) -> tuple[LinkGroup, ...]:
    """Every entry in use that uses this one, grouped by kind: a trouble that comes from it does not."""
    users = book.used_by.get((kind, entry.id), ())
    groups = []
    for user_kind, title in KIND_TITLES.items():
        if user_kind == "trouble":
            continue
        entries = book.of_kind(user_kind)
        outlines = {user_id: outline_at(entries, user_id) for by, user_id in users if by == user_kind}
        found = sorted(
            (outline.name.casefold(), user_id, outline.name)
            for user_id, outline in outlines.items()
            if not outline.retired
        )
        if found:
            items = tuple(
                LinkItem(name, relative(entry_address(user_kind, user_id), start))
                for _, user_id, name in found
            )
            groups.append(LinkGroup(title, FOLDER_OF[user_kind], items))
    return tuple(groups)


def used_in_short(groups: Iterable[tuple[str, Sequence[LinkItem]]]) -> str:
    """How many of each kind, as ``2 techniques``, for a shut fold. ``groups``: title and links of each."""
    return ", ".join(
        counted(len(items), ONE_OF.get(title, title.lower())) for title, items in groups if items
    )
