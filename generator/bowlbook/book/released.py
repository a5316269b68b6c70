"""What a book's entries were at its last release, as far as their files differ today."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, NamedTuple

from bowlbook.book.folder import FOLDERS, EntryFile

if TYPE_CHECKING:  # a check of a folder that has not changed loads no entry
    from bowlbook.book.book import Book, EntryKey
    from bowlbook.entries.entry import Entry


class Release(NamedTuple):
    """A release of the repository that a book is in: its tag, and its commit's full name."""

    tag: str
    commit: str


class Released(NamedTuple):
    """Entries as they were at a release: those whose files have changed since, or are gone.

    What could not be read whole is left out.
    """

    tag: str
    entries: Mapping[EntryKey, Entry]


def release_of(recipes: Path) -> Release | None:
    """The last release of a book; None without git, repository or tags, or where git does not read it."""
    # A walk up is quicker than a process, and most books that are only tried are in no repository. A Path
    # raises for names that no folder can have.
    folder = recipes.absolute()
    if not any(os.path.exists(each / ".git") for each in (folder, *folder.parents)):  # noqa: PTH110
        return None
    from bowlbook.book.revision import NoRevision, commit_of, last_release  # only in a repository

    try:
        tag = last_release(recipes)
        return None if tag is None else Release(tag, commit_of(recipes, tag))
    except NoRevision:
        return None


def released_in(recipes: Path, release: Release | None) -> Released | None:
    """The entries of a book that differ from those of a release; None where there is none to be had."""
    if release is None:
        return None
    from bowlbook.book.revision import NoRevision, changed_since

    try:
        return Released(release.tag, dict(_entries(changed_since(recipes, release.commit))))
    except NoRevision:
        return None


def _entries(files: Mapping[str, bytes]) -> Iterator[tuple[EntryKey, Entry]]:
    from bowlbook.book.read_book import read_entry  # only where something has changed

    for name, content in files.items():
        path = PurePosixPath(name)
        kind = FOLDERS.get(str(path.parent))
        if kind is None or path.suffix != ".yml":
            continue
        read = read_entry(EntryFile(kind, path.stem, name), content)
        if read.entry is not None and not any(each.severity == "error" for each in read.findings):
            yield (kind, path.stem), read.entry


def predecessor(book: Book, kind: str, entry: Entry) -> Entry | None:
    """An entry of a book as it was at the release, under its id of today or a former one; None if as now."""
    if book.released is None:
        return None
    ids = (entry.id, *getattr(entry, "formerly", ()))
    return next(filter(None, (book.released.entries.get((kind, each)) for each in ids)), None)
