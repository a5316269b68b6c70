"""A folder judged: read, linked and checked, with every finding in one sorted list."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from bowlbook.book.released import Release, release_of, released_in
from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.reading.finding import Finding, sorted_findings
from bowlbook.reading.refusal import Refusal

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
    if any(isinstance(content, Refusal) for _, content in folder.files):
        return _judge(root, folder, day, progress, cache, release).findings
    given = _digest_of(folder, day, release)

    def found() -> list[Finding]:
        return _judge(root, folder, day, progress, cache, release).findings

    return cache.get_or_make("judgement", "", given, found)


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


def _digest_of(folder: Folder, day: date, release: Release | None) -> bytes:
    """The digest of everything that the findings of a folder are made from."""
    outside = (release, folder.findings, folder.no_shelf, folder.pictures)
    files = [tuple(file) for file, _ in folder.files]
    contents = [content for _, content in folder.files if isinstance(content, bytes)]
    assert len(contents) == len(files)
    return digest_of(day.isoformat(), repr(outside), repr(files), *contents)
