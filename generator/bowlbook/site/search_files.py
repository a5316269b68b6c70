"""The search index of a site: entries from the data, other pages from their text."""

import re
from collections.abc import Iterable
from html import unescape
from pathlib import Path

from mkdocs.structure.files import File

from bowlbook.pages.asset import compact, data_name
from bowlbook.pages.page import SearchEntry
from bowlbook.pages.search_index import IndexEntry, search_index
from bowlbook.site.entry_page import EntryPage

DATA = "data"
NAMES = f"{DATA}/names.json"


def write_search(site: Path, files: Iterable[File], pick: str, beneath: str = "") -> str:
    """Write the index, and the file that names it and ``pick``, Pick by hair's data. Returns its name.

    ``beneath``: the folder of the site that the book is beneath; what is not there is not in the index.
    """
    found = (_indexed(file, beneath) for file in files if file.dest_uri.startswith(beneath))
    index = compact(search_index(each for each in found if each is not None))
    folder, name = site / beneath / DATA, data_name("search", index)
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(index, encoding="utf-8", newline="\n")
    names = compact({"search": name, "pick": pick})
    (site / beneath / NAMES).write_text(names, encoding="utf-8", newline="\n")
    return f"{beneath}{DATA}/{name}"


def _indexed(file: File, beneath: str) -> IndexEntry | None:
    """A page as search finds it, its address from the book's top; None for one that it leaves out."""
    page = file.page
    if isinstance(page, EntryPage):
        head = page.head
        address = page.url.removeprefix(beneath)
        return IndexEntry(address, head.search.kind, head.description, head.search) if head.search else None
    if page is None:
        return None
    text = re.sub(r"<[^>]*>", " ", page.content or "")
    address = page.url.removeprefix(beneath)
    return IndexEntry(address, "About this book", "", SearchEntry(unescape(str(page.title)), unescape(text)))
