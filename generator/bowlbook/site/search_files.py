"""The search index of a site: entries from the data, things to do, and pages by hand from their text."""

import re
from collections.abc import Iterable, Sequence
from functools import partial
from pathlib import Path

from mkdocs.structure.files import File

from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.entries.trade_word import TradeWord
from bowlbook.pages.asset import compact, data_name
from bowlbook.pages.page import SearchEntry
from bowlbook.pages.search_actions import ACTIONS
from bowlbook.pages.search_index import IndexEntry, indexed, search_index
from bowlbook.site.entry_page import EntryPage
from bowlbook.site.page_text import TextPiece, pieces_of

DATA = "data"
NAMES = f"{DATA}/names.json"
MANUAL = "reference/"
"""Pages on keeping the book. Search knows only their names and headings, and shows them last."""
MOST_LEAD = 6
"""How many words a paragraph may begin with that name what it is of."""
MOST_PIECES = 100
"""How many paragraphs, list items and table rows of a page by hand are entries of their own."""


def write_search(
    site: Path, files: Iterable[File], cache: Cache, pick: str, own_words: Sequence[TradeWord], beneath: str
) -> str:
    """Write the index, and the file that names it and ``pick``, Pick by hair's data. Returns its name.

    ``cache``: for the words of pages by hand, and the index. ``beneath``: the folder of the site that the
    book is beneath; what is not there is not in the index, and addresses in the index begin there.
    """
    listed = [file for file in files if file.dest_uri.startswith(beneath)]
    addresses = {file.url.removeprefix(beneath) for file in listed}
    entries = [each for file in listed for each in _indexed(file, beneath, cache)]
    entries += [
        indexed(each.address, SearchEntry(each.title, "", "To do", each.note, each.names), each.of_blend)
        for each in ACTIONS
        if each.address in addresses
    ]
    made_from = digest_of(repr(own_words), *(each.digest for each in entries))
    index = cache.get_or_make(
        "search index", beneath, made_from, lambda: compact(search_index(entries, own_words))
    )
    folder, name = site / beneath / DATA, data_name("search", index)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(index, encoding="utf-8", newline="\n")
    names = compact({"search": name, "pick": pick})
    (site / beneath / NAMES).write_text(names, encoding="utf-8", newline="\n")
    return f"{beneath}{DATA}/{name}"


def _indexed(file: File, beneath: str, cache: Cache) -> Iterable[IndexEntry]:
    """What search finds of a page."""
    page = file.page
    if isinstance(page, EntryPage):
        return [page.head.search] if page.head.search else []
    if page is None:
        return []
    made_from = (page.url.removeprefix(beneath), str(page.title), page.content or "")
    make = partial(_by_hand, *made_from)
    return cache.get_or_make("search of a page by hand", file.src_uri, digest_of(*made_from), make)


def _by_hand(address: str, title: str, content: str) -> list[IndexEntry]:
    """What search finds of a page by hand."""
    pieces = pieces_of(content)
    headings = list(dict.fromkeys(each.heading for each in pieces if each.heading))
    if address.startswith(MANUAL):
        return [indexed(address, SearchEntry(title, ", ".join(headings), "Keeping the book"))]
    return [
        indexed(address, SearchEntry(title, "", "Page", ", ".join(headings))),
        *(
            indexed(f"{address}#{piece.anchor}" if piece.anchor else address, _entry(title, piece))
            for piece in pieces[:MOST_PIECES]
        ),
    ]


def lead_of(text: str) -> tuple[str, ...]:
    """What a paragraph begins with, where that is a few words before a colon or full stop: what it is of."""
    lead = re.split(r"[:.] ", text, maxsplit=1)[0]
    return (lead,) if len(lead.split()) <= MOST_LEAD and lead != text else ()


def _entry(title: str, piece: TextPiece) -> SearchEntry:
    if piece.name:
        return SearchEntry(piece.name, f"{title}. {piece.text}", "Page", piece.text, tag=title)
    heading = f"{title}: {piece.heading}" if piece.heading else title
    return SearchEntry(heading, piece.text, "Page", piece.text, names=lead_of(piece.text))
