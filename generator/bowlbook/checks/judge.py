"""A folder judged: read, linked and checked, with every finding in one sorted list."""

from __future__ import annotations

import marshal
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from bowlbook.book.folder import Folder
from bowlbook.book.kept import Kept, as_rows, digest, of_rows, program
from bowlbook.book.shelf_folder import read_folder
from bowlbook.reading.finding import Finding, in_order
from bowlbook.reading.refusal import Refusal

if TYPE_CHECKING:
    from bowlbook.book.book import Book
    from bowlbook.book.read_book import Progress

ROOMS = ("reading", "entries", "book", "figures", "checks")
"""The rooms that decide what is found in a folder."""


class Judgement(NamedTuple):
    """What a folder came to. ``book`` is None without a house, and whole where nothing is an error."""

    book: Book | None
    findings: list[Finding]

    def errors(self, *, strict: bool = False) -> list[Finding]:
        """The findings that stop a build: errors, and with ``strict`` warnings too."""
        return [finding for finding in self.findings if strict or finding.severity == "error"]


def judge(root: Path, day: date, progress: Progress | None = None) -> Judgement:
    """Read and check a book's folder for ``day``."""
    return _judge(root, read_folder(root), day, progress)


def judged_in(root: Path, day: date, progress: Progress | None = None) -> Judgement:
    """The findings of `judge`, kept: where nothing that they depend on has changed, nothing is worked out.

    Then there is no book beside them either. They depend on the folder's files, names and bytes, on how it is
    shown, on the day and on the program. A folder with a file that cannot be read is judged every time.
    """
    folder = read_folder(root)
    doubtful = any(isinstance(content, Refusal) for _, content in folder.files)
    kept = Kept(None if doubtful else root, "findings")
    if kept.path is None:
        return _judge(root, folder, day, progress)
    key = _key(folder, day)
    rows = kept.pack(key) if kept.get(key) else None
    if rows is not None:
        return Judgement(None, of_rows(marshal.loads(rows)))
    judgement = _judge(root, folder, day, progress)
    kept.put(key, True, marshal.dumps(as_rows(judgement.findings)))
    kept.save()
    return judgement


def _judge(root: Path, folder: Folder, day: date, progress: Progress | None) -> Judgement:
    from bowlbook.book.entry_cache import EntryCache  # what only a folder that changed needs
    from bowlbook.book.read_book import book_of
    from bowlbook.checks.by_entry import run_kept
    from bowlbook.checks.run import run_checks

    kept = Kept(root, "checks")
    reading = book_of(folder, EntryCache(root), progress)
    findings: list[Finding] = []
    if reading.book is not None and kept.path is not None:
        findings = run_kept(reading.book, day, kept)
    elif reading.book is not None:
        findings = run_checks(reading.book, day)
    if reading.unfinished is not None:
        from bowlbook.checks.unfinished import run_unfinished

        findings += run_unfinished(*reading.unfinished, day)
    if reading.findings or reading.unfinished:
        findings = in_order([*reading.findings, *findings])
    return Judgement(reading.book, findings)


def _key(folder: Folder, day: date) -> bytes:
    """What stands for all that the findings of a folder depend on."""
    parts = [
        program(*ROOMS),
        day.isoformat().encode(),
        repr((folder.findings, folder.no_shelf)).encode(*SAFELY),
    ]
    for file, content in folder.files:
        assert isinstance(content, bytes)
        parts += [f"{file.kind}\0{file.id}\0{file.shown_as}\0{file.shared}".encode(*SAFELY), content]
    return digest(*parts)


SAFELY = ("utf-8", "surrogateescape")
