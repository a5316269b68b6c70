"""A folder to a book: every file read, validated and linked, every mistake in one list."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from bowlbook.book.book import Book, EntryKey, UsedBy
from bowlbook.book.folder import FOLDERS, EntryFile, Folder, FoundPicture, content_of, list_folder
from bowlbook.book.lazy_entries import LazyEntries, LazyEntry
from bowlbook.book.linking import link
from bowlbook.book.long_texts import Stamps, short_digest
from bowlbook.book.outline import Outline, outline_of
from bowlbook.book.shelf import no_shelf, shelf_findings
from bowlbook.book.shelf_folder import read_folder, shelf_said
from bowlbook.cache.cache import Cache, Result, make_together
from bowlbook.cache.digest import digest_of
from bowlbook.entries.entry import ENTRY_KINDS, Entry
from bowlbook.entries.partial import read_partly, with_unread
from bowlbook.reading.finding import Finding, finding_of, sorted_findings
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Source

if TYPE_CHECKING:
    from bowlbook.entries.house import House
    from bowlbook.reading.picture import SeenPicture

Progress = Callable[[int, int], None]
Partial = set[tuple[EntryKey, bool]]
"""Which entries could be read in part only, or not at all, and whether they are shared products."""


class ReadResult(NamedTuple):
    """What reading a folder gave. ``book`` holds what could be read whole; None without a whole house.

    Only where no finding is an error does ``book`` hold every entry of the folder. ``unfinished``: every
    entry as far as it could be read, and which of them ``book`` leaves out; None where it leaves out none.
    """

    book: Book | None
    findings: list[Finding]
    unfinished: tuple[Book, list[EntryKey]] | None = None


def read_book(root: Path, progress: Progress | None = None, cache: Cache | None = None) -> ReadResult:
    """Read a book's folder. Never raises for what stands in it: that is what findings are for.

    ``progress`` is called with how many files of how many have been read. Files that ``cache`` knows are not
    read again; without one nothing is kept.
    """
    return book_of(read_folder(root), cache or Cache(), progress)


def book_of(folder: Folder, cache: Cache, progress: Progress | None = None) -> ReadResult:
    """The book of a folder that has been read, as `read_book` gives it."""
    cache.load_all(OUTLINE)
    findings = list(folder.findings)
    entries: dict[str, dict[str, LazyEntry]] = {kind: {} for kind in ENTRY_KINDS}
    shared: dict[str, LazyEntry] = {}
    stamps: dict[EntryKey, Stamps] = {}
    partial: Partial = set()
    readable = [(file, content) for file, content in folder.files if not isinstance(content, Refusal)]
    readings = {file: _reading_of(file, content, folder.digests[file], cache) for file, content in readable}
    unread = [each for each in readings.values() if each.outline.digest is None]
    make_together([(each.entry, each.outline) for each in unread], progress)
    for done, (file, content) in enumerate(folder.files):
        if isinstance(content, Refusal):
            read, found = None, [finding_of(content, Place(file.shown_as, 1, 1))]
        else:
            read, found = readings[file].found()
        findings += found
        if read is not None:
            (shared if file.shared else entries[file.kind])[file.id] = read.entry
            # Shared products come last: the own one counts.
            stamps.setdefault((file.kind, file.id), read.stamps)
        if _has_error(found):
            partial.add(((file.kind, file.id), file.shared))
        if progress is not None:
            progress(done + 1, len(folder.files))
    pictures, found = _pictures_of(folder, cache)
    files = [file for file, _ in folder.files]
    findings += found
    return _linked(files, folder.no_shelf, entries, shared, findings, stamps, partial, pictures)


def _pictures_of(folder: Folder, cache: Cache) -> tuple[dict[str, SeenPicture], list[Finding]]:
    """The pictures of a folder that can be read, and a finding for each that cannot."""
    seen: dict[str, SeenPicture] = {}
    findings = []
    for file in folder.pictures:
        found = cache.get_or_make(PICTURE, file.shown_as, digest_of(repr(file)), partial(_looked_at, file))
        if isinstance(found, Finding):
            findings.append(found)
        else:
            seen[file.name] = found
    return seen, findings


def _looked_at(file: FoundPicture) -> SeenPicture | Finding:
    from bowlbook.reading.picture import look_at  # and Pillow behind it, only for books with pictures

    try:
        return look_at(file.shown_as)
    except Refusal as refusal:
        return finding_of(refusal, Place(file.shown_as, 1, 1))


OUTLINE, ENTRY, PICTURE = "outline", "entry", "picture"
"""Kinds of results in the cache: of each file its entry's outline and findings, the entry itself, and what a
picture is."""


class ReadEntry:
    """The ``entry`` in a file, as far as it can be read, and all ``findings``.

    It is pickled as what was read of the file: validating that takes less time than storing all the parts of
    the entry and loading them.
    """

    def __init__(self, kind: str, entry_id: str, source: Source, found: list[Finding]) -> None:
        """``found``: what reading the source found."""
        from bowlbook.entries.validate import validate

        self._read = kind, entry_id, source, found
        self.entry, more = validate(kind, entry_id, source)
        self.findings = found + more

    def __reduce__(self) -> tuple[Any, ...]:
        kind, entry_id, source, found = self._read
        stored = source.path, source.text, source.data, source.places, source.faulty
        return _validated_again, (kind, entry_id, stored, found)


def _validated_again(kind: str, entry_id: str, stored: tuple[Any, ...], found: list[Finding]) -> ReadEntry:
    from bowlbook.entries.validate import known_keys, private_keys

    path, text, data, places, faulty = stored
    source = Source(path, text, private_keys(), data, places, known_keys(), faulty)
    return ReadEntry(kind, entry_id, source, found)


class _Read(NamedTuple):
    """The entry in a file, and its digests."""

    entry: LazyEntry
    stamps: Stamps


class _Reading(NamedTuple):
    """One file, read when its outline or its entry is asked for. With its outline goes its short digest."""

    stamp: bytes
    entry: Result[ReadEntry]
    outline: Result[tuple[tuple[Outline, bytes] | None, list[Finding]]]

    def loaded(self) -> Entry:
        """The entry, where the outline says that there is one."""
        return cast(Entry, self.entry.value.entry)

    def found(self) -> tuple[_Read | None, list[Finding]]:
        """The file's entry and findings: a partial entry where a finding of it is an error."""
        outlined, findings = self.outline.value
        if outlined is None:
            return None, findings
        outline, short = outlined
        held = self.loaded() if self.entry.is_loaded else self.loaded
        return _Read(LazyEntry(outline, held), Stamps(self.stamp, short)), findings


def _reading_of(file: EntryFile, content: bytes, stamp: bytes, cache: Cache) -> _Reading:
    entry = cache.result(ENTRY, file.shown_as, stamp, partial(read_entry, file, content))
    return _Reading(stamp, entry, cache.result(OUTLINE, file.shown_as, stamp, partial(_outlined, entry)))


def _outlined(read: Result[ReadEntry]) -> tuple[tuple[Outline, bytes] | None, list[Finding]]:
    entry, findings = read.value.entry, read.value.findings
    return None if entry is None else (outline_of(entry), short_digest(entry)), findings


def read_entry(file: EntryFile, content: bytes) -> ReadEntry:
    """The entry in one file's content, as far as it can be read, and the findings."""
    # These, and PyYAML behind them, only when there is something to read.
    from bowlbook.entries.validate import known_keys, private_keys
    from bowlbook.reading.document import read_content

    return ReadEntry(file.kind, file.id, *read_content(content, file.shown_as, private_keys(), known_keys()))


def _has_error(findings: list[Finding]) -> bool:
    return any(each.severity == "error" for each in findings)


def read_part(root: Path, kind: str, entry_id: str, cache: Cache | None = None) -> Book | None:
    """As much of a book as one entry needs: the house, the entry, what they name, what that names, and so on.

    None without a house, or where the entry or anything that it needs is not whole: whatever is wrong is for
    `read_book` to say. None also for a book that takes products from a shelf.
    """
    cache = cache or Cache()
    if shelf_said(root) is not None:
        return None
    files = {(file.kind, file.id): file for file in list_folder(root)[0]}
    entries: dict[str, dict[str, LazyEntry]] = {kind: {} for kind in ENTRY_KINDS}
    wanted = [("house", "house"), (kind, entry_id)]
    for key in wanted:
        file = files.get(key)
        content = None if file is None else content_of(file)
        if file is None or not isinstance(content, bytes):
            continue
        read, found = _reading_of(file, content, file.digest(content), cache).found()
        if read is None or _has_error(found):
            continue
        entries[key[0]][key[1]] = read.entry
        named = dict.fromkeys(each[:2] for each in read.entry.outline.named)
        wanted += [each for each in named if each not in wanted]
    book = _linked(list(files.values()), None, entries, {}, [], {}, set(), {}).book
    return book if book is not None and entry_id in book.of_kind(kind) else None


def _linked(
    files: list[EntryFile],
    shelf_refused: Refusal | None,
    held: dict[str, dict[str, LazyEntry]],
    held_shared: dict[str, LazyEntry],
    findings: list[Finding],
    stamps: dict[EntryKey, Stamps],
    partial: Partial,
    pictures: Mapping[str, SeenPicture],
) -> ReadResult:
    """The book of these entries and shared products.

    ``files``: all files of its folder, also those not read. ``shelf_refused``: as `Folder.no_shelf`.
    """
    known: dict[str, set[str]] = {kind: set() for kind in ENTRY_KINDS}
    for file in files:
        known[file.kind].add(file.id)
    house = cast("House | None", LazyEntries(held["house"]).get("house"))
    ids = {file.id for file in files if file.shared}
    findings += no_shelf(house, shelf_refused)
    findings += shelf_findings(house, LazyEntries(held["product"]), LazyEntries(held_shared), ids)
    own = {file.id for file in files if file.kind == "product" and not file.shared}
    products = {**held["product"], **{key: each for key, each in held_shared.items() if key not in own}}
    held = {**held, "product": dict(sorted(products.items()))}
    if shelf_refused is not None:  # what stands on it is not known, and so no id is known to be wrong
        known["product"] |= _products_named(held)
    unread = {(kind, each) for kind, known_ids in known.items() for each in known_ids - held[kind].keys()}
    used_by, link_findings, broken = link({kind: LazyEntries(by_id) for kind, by_id in held.items()}, known)
    left_out = {key for key, shared in partial if not (shared and key[1] in own)} | unread | set(broken)
    _spread(left_out, used_by)
    if ("house", "house") in left_out:
        left_out |= {(kind, entry_id) for kind, by_id in held.items() for entry_id in by_id}
    whole = {kind: {i: e for i, e in ids.items() if (kind, i) not in left_out} for kind, ids in held.items()}
    whole_shared = {i: e for i, e in held_shared.items() if (("product", i), True) not in partial}
    complete = shelf_refused is None and not left_out
    book = _book(whole, whole_shared, used_by, stamps, frozenset(left_out), pictures, whole=complete)
    reading = ReadResult(book, sorted_findings(findings + link_findings))
    if not left_out or not known["house"]:
        return reading
    for (kind, entry_id), ways in broken.items():
        held[kind][entry_id] = _held(with_unread(held[kind][entry_id].entry, ways))
    if ("house", "house") in unread:
        held["house"]["house"] = _held(_unread_house())
    unfinished = _book(held, held_shared, used_by, stamps, frozenset(), pictures, whole=False)
    assert unfinished is not None
    return reading._replace(unfinished=(unfinished, sorted(left_out - unread)))


def _book(
    held: dict[str, dict[str, LazyEntry]],
    shared: dict[str, LazyEntry],
    used_by: UsedBy,
    stamps: dict[EntryKey, Stamps],
    unread: frozenset[EntryKey],
    pictures: Mapping[str, SeenPicture],
    *,
    whole: bool,
) -> Book | None:
    """The book of these entries; None without a house."""
    house = LazyEntries(held["house"]).get("house")
    if house is None:
        return None
    by_folder: dict[str, Any] = {folder: LazyEntries(held[kind]) for folder, kind in FOLDERS.items()}
    by_folder |= {"shared": LazyEntries(shared), "pictures": pictures}
    return Book(house=house, used_by=used_by, whole=whole, unread=unread, stamps=stamps, **by_folder)


def _held(entry: Entry) -> LazyEntry:
    """An entry that is at hand."""
    return LazyEntry(outline_of(entry), entry)


def _unread_house() -> Entry:
    """A house of which nothing could be read: whatever looks into it raises `Unread`."""
    from bowlbook.entries.house import House

    return cast(Entry, read_partly(House, "house", Source("house.yml", "")))


def _spread(broken: set[EntryKey], used_by: UsedBy) -> None:
    """Add whatever uses something broken, at however many hands."""
    unfinished = list(broken)
    while unfinished:
        for user in used_by.get(unfinished.pop(), ()):
            if user not in broken:
                broken.add(user)
                unfinished.append(user)


def _products_named(held: dict[str, dict[str, LazyEntry]]) -> set[str]:
    """The ids of every product that some entry names."""
    named = (each for by_id in held.values() for entry in by_id.values() for each in entry.outline.named)
    return {target for to, target, _ in named if to == "product"}
