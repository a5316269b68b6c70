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


def write_search(site: Path, files: Iterable[File], pick: str) -> str:
    """Write the index, and the file that names it and ``pick``, Pick by hair's data. Returns its name."""
    index = compact(search_index(found for file in files if (found := _indexed(file)) is not None))
    name = f"{DATA}/{data_name('search', index)}"
    (site / DATA).mkdir(parents=True, exist_ok=True)
    (site / name).write_text(index, encoding="utf-8", newline="\n")
    names = compact({"search": name.removeprefix(f"{DATA}/"), "pick": pick})
    (site / NAMES).write_text(names, encoding="utf-8", newline="\n")
    return name


def _indexed(file: File) -> IndexEntry | None:
    """A page as search finds it; None for one that it leaves out."""
    page = file.page
    if isinstance(page, EntryPage):
        head = page.head
        return IndexEntry(page.url, head.search.kind, head.description, head.search) if head.search else None
    if page is None:
        return None
    text = re.sub(r"<[^>]*>", " ", page.content or "")
    return IndexEntry(page.url, "About this book", "", SearchEntry(unescape(str(page.title)), unescape(text)))
