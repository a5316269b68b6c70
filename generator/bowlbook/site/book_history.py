"""What a build reads from the book's git history: what changed since the last release, and earlier prices."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import TYPE_CHECKING

from mkdocs.exceptions import PluginError

from bowlbook.book.audience import copy_for
from bowlbook.book.book import Book
from bowlbook.book.price_history import Histories, price_history
from bowlbook.book.released import Release, release_of
from bowlbook.book.revision import NoRevision, NothingThere, book_at, commit_of, last_release
from bowlbook.cache.cache import Cache

if TYPE_CHECKING:  # loaded where there is a release
    from bowlbook.pages.release_page import Since

log = logging.getLogger("mkdocs.plugins.bowlbook")


def since_release(book: Book, folder: Path, wanted: str, audience: str, cache: Cache) -> Since | None:
    """The last release and what changed after it; None without one.

    ``folder``: the recipes. ``wanted``: the option ``release``. Raises `PluginError` where that names a
    revision that is not there.
    """
    if wanted == "none":
        return None
    try:
        release = last_release(folder) if wanted == "auto" else wanted
        if release is None:
            return None
        old = book_at(folder, release, lambda text: log.warning(f"{release}: {text}"), cache)
    except NoRevision as error:
        if wanted != "auto":
            raise PluginError(f"release: {error}") from error
        if not isinstance(error, NothingThere):  # that is a release from before there was a book
            log.warning(f"Recent changes: nothing to compare with. {error}")
        return None
    if old is None:
        return None
    from bowlbook.figures.difference import differences
    from bowlbook.pages.release_page import Since

    return Since(release, tuple(differences(copy_for(old, audience), book)))


def prices_over_time(book: Book, folder: Path, wanted: str, audience: str, cache: Cache) -> Histories:
    """The prices of each product over time, by its id, for the team's copy alone. Arguments as above."""
    if audience != "team" or wanted == "none" or not book.priced:
        return {}
    try:
        release = release_of(folder) if wanted == "auto" else Release(wanted, commit_of(folder, wanted))
    except NoRevision:
        return {}  # said by `since_release`
    return price_history(folder, book, release, cache)
