"""Links lead from the front page to every page of the demo: one without would never be seen."""

import re
from pathlib import Path
from urllib.parse import urljoin

from bowlbook.book.book import Book
from bowlbook.pages.address import entry_address

BY_SCRIPT = {"timing-log/"}
"""Pages that a script of the site leads to: the bar of running timers."""
MOVED = '<meta http-equiv="refresh"'
"""In pages at former addresses, which nothing leads to any more."""


def test_every_page_is_reached(demo_site: Path, demo_book: Book) -> None:
    """But for those of retired entries, which search still finds."""
    texts = {page: page.read_text(encoding="utf-8") for page in demo_site.rglob("index.html")}
    linked = {
        page.parent.relative_to(demo_site).as_posix() + "/": set(re.findall(r'href="([^":#?]*)["#?]', text))
        for page, text in texts.items()
        if MOVED not in text
    }
    reached = todo = {"./"}
    while todo:
        found = {
            urljoin(f"/{page}", href).removeprefix("/") or "./" for page in todo for href in linked[page]
        }
        todo = (found & linked.keys()) - reached
        reached = reached | todo
    retired = {entry_address(*key) for key in demo_book.retired}
    assert linked.keys() - reached == BY_SCRIPT | retired
