"""A folder to a book: every file read, validated and linked, every mistake in one list."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, cast

from generator.book.book import Book
from generator.book.folder import FOLDER_OF, list_folder
from generator.book.linking import link
from generator.entries.entry import KINDS, Entry
from generator.entries.house import House
from generator.entries.validate import private_keys, validate
from generator.reading.document import read_source
from generator.reading.finding import Finding, in_order

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Reading:
    """What reading a folder gave. ``book`` holds what could be read whole; None without a house.

    Only where no finding is an error does ``book`` hold every entry of the folder.
    """

    book: Book | None
    findings: list[Finding]


def read_book(root: Path, progress: Progress | None = None) -> Reading:
    """Read a book's folder. Never raises for what stands in it: that is what findings are for.

    ``progress`` is told how many files of how many have been read.
    """
    files, findings = list_folder(root)
    private = private_keys()
    entries: dict[str, dict[str, Entry]] = {kind: {} for kind in KINDS}
    known: dict[str, set[str]] = {kind: set() for kind in KINDS}
    for done, file in enumerate(files):
        known[file.kind].add(file.id)
        source, text_findings = read_source(file.path, file.shown_as, private)
        entry, entry_findings = validate(file.kind, file.id, source)
        findings += text_findings + entry_findings
        if entry is not None and not any(f.severity == "error" for f in text_findings):
            entries[file.kind][file.id] = entry
        if progress is not None:
            progress(done + 1, len(files))
    used_by, link_findings, broken = link(entries, known)
    findings += link_findings
    unfinished = list(broken)
    while unfinished:
        for user in used_by.get(unfinished.pop(), ()):
            if user not in broken:
                broken.add(user)
                unfinished.append(user)
    house = cast(House | None, entries["house"].get("house"))
    if house is None:
        return Reading(None, in_order(findings))
    whole: dict[str, Any] = {
        kind: {i: e for i, e in by_id.items() if (kind, i) not in broken} for kind, by_id in entries.items()
    }
    folders = {FOLDER_OF[kind]: whole[kind] for kind in FOLDER_OF}
    complete = sum(map(len, whole.values())) == len(files)
    return Reading(Book(house=house, used_by=used_by, whole=complete, **folders), in_order(findings))
