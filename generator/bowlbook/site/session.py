"""What a command hands the plugin, and what lasts over the builds of one process."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from bowlbook.book.read_book import Progress
from bowlbook.cache.cache import Cache, open_cache
from bowlbook.cache.store import Store
from bowlbook.checks.judge import Judgement
from bowlbook.site.incremental import Incremental

if TYPE_CHECKING:  # only the preview loads them
    from mkdocs.livereload import LiveReloadServer

    from bowlbook.site.watching import Snapshots


@dataclass(slots=True)
class Session:
    """One run of a command, of which the preview may build many times.

    ``recipes`` and ``audience``: others than the configuration's. ``judgement``: the book, where it was
    judged and its findings printed. ``progress`` receives how many of how many pages have been rendered.
    ``beneath``: the folder beneath the configuration's address in which the site will be served.
    ``incremental``: which files the build may take from the last one; None and all are written. ``serving``:
    this is the preview, which keeps no copies for the phone, and lets MkDocs' reloading script run.
    ``store``: where results are stored, where the user wants none beyond this run.
    """

    recipes: Path | None = None
    audience: str | None = None
    judgement: Judgement | None = None
    progress: Progress | None = None
    beneath: str = ""
    incremental: Incremental | None = None
    serving: bool = False
    store: Path | None = None
    server: LiveReloadServer | None = None
    snapshots: Snapshots | None = None
    """The watched files as they were before the first build of the preview."""

    caches: dict[Path, Cache] = field(default_factory=dict)
    """By the book's folder, over all builds."""

    def cache_of(self, book: Path) -> Cache:
        """The cache of a book's folder. That of the preview holds in memory what earlier builds loaded."""
        if book not in self.caches:
            own = None if self.store is None else Cache(Store(self.store), remembers=self.serving)
            self.caches[book] = own or open_cache(book, remembers=self.serving)
        return self.caches[book]
