"""The page of a retired entry: that it is no longer used, why, and what to take instead. No figures."""

from bowlbook.book.book import Book
from bowlbook.book.current import retired_of
from bowlbook.book.folder import FOLDER_OF
from bowlbook.book.long_texts import whole_at
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.closing import closing_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.link_list import LinkItem, link_to, where_used
from bowlbook.pages.page import Page
from bowlbook.pages.pagination import MOST
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.wording.entry import name_of, note_of
from bowlbook.wording.locale_format import locale_format_of


def retired_page(book: Book, kind: str, entry_id: str) -> Page:
    """The finished page of a retired entry: what it was for is kept, its amounts and its times are not."""
    entry, formats = whole_at(book.of_kind(kind), entry_id), locale_format_of(book)
    address = entry_address(kind, entry_id)
    retired = retired_of(entry)
    assert retired is not None  # the maker asks for no other
    instead = None
    if retired.instead is not None:
        successor = book.of_kind(kind)[retired.instead]
        instead = link_to(kind, successor, address, note_of(book, kind, successor))
    # What still names it, without what it takes the place of: at most one page of each kind.
    used = [group._replace(items=group.items[:MOST]) for group in where_used(book, kind, entry, address)]
    body = render(
        "retired.html",
        address,
        entry=entry,
        day=formats.day(retired.on),
        because=retired.because,
        instead=instead,
        listed=LinkItem("All in use", relative(f"{FOLDER_OF[kind]}/", address)),
        warnings=[*getattr(entry, "hazards", ()), *getattr(entry, "cautions", ())],
        notes=free_text(getattr(entry, "notes", None)),
        used=used,
        **{**closing_of(book, entry, formats), "stamp": None, "reviewable": False},
    )
    search = search_entry(book, kind, entry)._replace(note=retired.because)
    lead = f"Retired on {formats.day(retired.on)}. {retired.because}"
    return Page(address, name_of(entry), lead, body, search=search)
