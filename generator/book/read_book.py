"""A folder to a book: every file read, validated and linked, every mistake in one list."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, cast

from generator.book.book import Book, EntryKey
from generator.book.entry_cache import EntryCache, Read
from generator.book.folder import FOLDER_OF, EntryFile, list_folder
from generator.book.linking import link
from generator.book.reference import references
from generator.book.shelf import shelf_files, shelf_findings
from generator.entries.entry import KINDS, Entry
from generator.entries.house import House
from generator.entries.product import Product
from generator.entries.validate import private_keys, validate
from generator.reading.finding import Finding, finding_of, in_order
from generator.reading.guard import read_bytes
from generator.reading.place import Place
from generator.reading.refusal import Refusal

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Reading:
    """What reading a folder gave. ``book`` holds what could be read whole; None without a house.

    Only where no finding is an error does ``book`` hold every entry of the folder.
    """

    book: Book | None
    findings: list[Finding]


def _read(file: EntryFile, cache: EntryCache) -> Read:
    """One file's entry and findings: no entry where a finding of it is an error."""
    try:
        content = read_bytes(file.path)
    except Refusal as refusal:
        return None, [finding_of(refusal, Place(file.shown_as, 1, 1))]
    key = cache.key(file, content)
    known = cache.get(key)
    if known is None:
        from generator.reading.document import (
            read_content,
        )  # and PyYAML, only when there is something to read

        source, found = read_content(content, file.shown_as, private_keys())
        entry, more = validate(file.kind, file.id, source)
        found = found + more
        known = (None if any(each.severity == "error" for each in found) else entry, found)
        cache.put(key, known)
    return known


def read_book(root: Path, progress: Progress | None = None, *, keep: bool = True) -> Reading:
    """Read a book's folder. Never raises for what stands in it: that is what findings are for.

    ``progress`` is told how many files of how many have been read. ``keep``: whether what is read is kept for
    the next time (`EntryCache`); not for a folder that is soon gone.
    """
    files, findings = list_folder(root)
    cache = EntryCache(root if keep else None)
    entries: dict[str, dict[str, Entry]] = {kind: {} for kind in KINDS}
    shared: dict[str, Entry] = {}
    known: dict[str, set[str]] = {kind: set() for kind in KINDS}
    first = {file: _read(file, cache) for file in files if file.kind == "house"}
    house = cast(House | None, next((entry for entry, _ in first.values()), None))
    shelf, of_shelf, shelf_found = shelf_files(root, house)
    findings += of_shelf
    files += shelf
    for done, file in enumerate(files):
        known[file.kind].add(file.id)
        entry, found = first.get(file) or _read(file, cache)
        findings += found
        if entry is not None:
            (shared if file.shared else entries[file.kind])[file.id] = entry
        if progress is not None:
            progress(done + 1, len(files))
    cache.save()
    findings += shelf_findings(house, entries["product"], shared, {file.id for file in shelf})
    own = {file.id for file in files if file.kind == "product" and not file.shared}
    entries["product"].update({key: entry for key, entry in shared.items() if key not in own})
    entries["product"] = dict(sorted(entries["product"].items()))
    if not shelf_found:  # what stands on it is not known, and so no id is known to be wrong
        known["product"] |= _products_named(entries)
    used_by, link_findings, broken = link(entries, known)
    findings += link_findings
    _spread(broken, used_by)
    if house is None:
        return Reading(None, in_order(findings))
    whole: dict[str, Any] = {
        kind: {i: e for i, e in by_id.items() if (kind, i) not in broken} for kind, by_id in entries.items()
    }
    folders = {FOLDER_OF[kind]: whole[kind] for kind in FOLDER_OF}
    complete = shelf_found and all(known[kind] == set(whole[kind]) for kind in KINDS)
    on_shelf = cast(dict[str, Product], shared)
    book = Book(house=house, used_by=used_by, shared=on_shelf, whole=complete, **folders)
    return Reading(book, in_order(findings))


def _spread(broken: set[EntryKey], used_by: dict[EntryKey, tuple[EntryKey, ...]]) -> None:
    """Add whatever uses something broken, at however many hands."""
    unfinished = list(broken)
    while unfinished:
        for user in used_by.get(unfinished.pop(), ()):
            if user not in broken:
                broken.add(user)
                unfinished.append(user)


def _products_named(entries: dict[str, dict[str, Entry]]) -> set[str]:
    """The ids of every product that some entry names."""
    named = (each for by_id in entries.values() for entry in by_id.values() for each in references(entry))
    return {each.id for each in named if each.ref.to == "product"}
