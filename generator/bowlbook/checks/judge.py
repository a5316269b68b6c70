"""A folder judged: read, linked and checked, with every finding in one sorted list."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.reading.finding import Finding, in_order
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
    return _judge(read_folder(root), day, progress, cache or Cache())


def findings_in(root: Path, day: date, progress: Progress | None, cache: Cache) -> list[Finding]:
    """The findings of `judge`. Where nothing in the folder has changed, no entry is looked at.

    A folder with a file that cannot be read is judged every time.
    """
    folder = read_folder(root)
    if any(isinstance(content, Refusal) for _, content in folder.files):
        return _judge(folder, day, progress, cache).findings
    given = _digest_of(folder, day)
    return cache.get_or_make("judgement", "", given, lambda: _judge(folder, day, progress, cache).findings)


def _judge(folder: Folder, day: date, progress: Progress | None, cache: Cache) -> Judgement:
    from bowlbook.book.read_book import book_of  # only for a folder that changed
    from bowlbook.checks.run import run_checks

    reading = book_of(folder, cache, progress)
    findings: list[Finding] = []
    if reading.book is not None:
        findings = run_checks(reading.book, day, cache)
    if reading.unfinished is not None:
        from bowlbook.checks.unfinished import run_unfinished

        findings += run_unfinished(*reading.unfinished, day)
    if reading.findings or reading.unfinished:
        findings = in_order([*reading.findings, *findings])
    return Judgement(reading.book, findings)


def _digest_of(folder: Folder, day: date) -> bytes:
    """The digest of everything that the findings of a folder are made from."""
    parts: list[bytes | str] = [day.isoformat(), repr((folder.findings, folder.no_shelf, folder.pictures))]
    for file, content in folder.files:
        assert isinstance(content, bytes)
        parts += [repr(file), content]
    return digest_of(*parts)
