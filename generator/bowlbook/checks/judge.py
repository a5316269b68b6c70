"""A folder judged: read, linked and checked, with every finding in one sorted list."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from bowlbook.book.released import Release, release_of, released_in
from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.reading.finding import Finding, packed, sorted_findings, unpacked

if TYPE_CHECKING:
    from bowlbook.book.book import Book
    from bowlbook.book.folder import Folder
    from bowlbook.book.read_book import Progress


class Judgement(NamedTuple):
    """What was found in a folder. ``book`` is None without a house, and whole where nothing is an error."""

    book: Book | None
    findings: list[Finding]

    def errors(self, *, strict: bool = False) -> list[Finding]:
        """The findings that stop a build: errors, and with ``strict`` warnings too."""
        return [finding for finding in self.findings if strict or finding.severity == "error"]


def judge(root: Path, day: date, progress: Progress | None = None, cache: Cache | None = None) -> Judgement:
    """Read and check a book's folder for ``day``."""
    release = release_of(root)
    return _judge(root, read_folder(root), day, progress, cache or Cache(), release)


def findings_in(
    root: Path, folder: Folder, day: date, progress: Progress | None, cache: Cache
) -> list[Finding]:
    """The findings of `judge`. Where nothing in the folder has changed, no entry is looked at.

    ``folder``: what `read_folder` gave of ``root``. One with a file that cannot be read is judged every time.
    """
    release = release_of(root)
    if len(folder.digests) < len(folder.files):
        return _judge(root, folder, day, progress, cache, release).findings
    shared = sum(file.shared for file in folder.digests)  # they come last
    outside = (day.isoformat(), release, folder.findings, folder.no_shelf, folder.pictures, shared)
    given = digest_of(repr(outside), *folder.digests.values())
    judged: list[Finding] = []

    def rows() -> list[tuple[Any, ...]]:
        judged.extend(_judge(root, folder, day, progress, cache, release).findings)
        return [packed(each) for each in judged]

    stored = cache.get_or_make("judgement", "", given, rows)
    return judged or [unpacked(row) for row in stored]


def _judge(
    root: Path, folder: Folder, day: date, progress: Progress | None, cache: Cache, release: Release | None
) -> Judgement:
    from bowlbook.book.read_book import book_of  # only for a folder that changed
    from bowlbook.checks.run import run_checks

    reading = book_of(folder, cache, progress)
    findings: list[Finding] = []
    if reading.book is not None:
        findings = run_checks(replace(reading.book, released=released_in(root, release)), day, cache)
    if reading.unfinished is not None:
        from bowlbook.checks.unfinished import run_unfinished

        findings += run_unfinished(*reading.unfinished, day)
    if reading.findings or reading.unfinished:
        findings = sorted_findings([*reading.findings, *findings])
    return Judgement(reading.book, findings)
