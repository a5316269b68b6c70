"""Entries read before, kept by their content: an unchanged file is not read again, an edit reads one.

Beside a file's findings and its entry's outline lies, packed, what its text was read as, with all places. An
entry is made from that where somebody asks for it, as quickly as it could be unpacked itself. The text is the
file's own, which was read in any case.
"""

import marshal
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

from bowlbook.book.folder import EntryFile
from bowlbook.book.held import Held
from bowlbook.book.kept import Kept, as_rows, digest, of_rows, program
from bowlbook.book.outline import Outline, outline_of
from bowlbook.entries.entry import Entry
from bowlbook.reading.finding import Finding
from bowlbook.reading.guard import decode
from bowlbook.reading.source import Loc, Places, Source

Read = tuple[Entry | None, list[Finding]]
ROOMS = ("reading", "entries", "book")
"""The rooms that decide what comes of a file's bytes, and how that is kept."""


class EntryCache:
    """What reading came to for each file of one book."""

    def __init__(self, root: Path | None) -> None:
        self.kept = Kept(root, "entries")
        self.save = self.kept.save
        self._keys: dict[EntryFile, bytes] = {}
        self._read: dict[bytes, tuple[Held | None, list[Finding]]] = {}

    def key(self, file: EntryFile, content: bytes) -> bytes:
        """What a file's reading depends on: how it is shown, its bytes, and the program that reads."""
        known = self._keys.get(file)
        if known is None:
            told = f"{file.kind}\0{file.id}\0{file.shown_as}".encode("utf-8", "surrogateescape")
            known = self._keys[file] = digest(program(*ROOMS), told, content)
        return known

    def get(
        self, key: bytes, file: EntryFile, content: bytes, again: Callable[[], Read]
    ) -> tuple[Held | None, list[Finding]] | None:
        """What reading came to before; None where that is not known.

        ``again`` reads the file anew, for an entry that cannot be unpacked.
        """
        if key in self._read:
            return self._read[key]
        found = self.kept.get(key)
        if found is None:
            return None
        try:
            rows, outline = found
            findings = of_rows(rows)
            if outline is None:
                return None, findings
            told = Outline(*outline)
        except (TypeError, ValueError):  # whatever is wrong with it, the file itself is read instead
            return None

        def unpack() -> Entry:
            pack = self.kept.pack(key)
            entry = None if pack is None else unpacked(pack, file, content)
            return entry or cast(Entry, again()[0])

        return Held(told, unpack), findings

    def put(self, key: bytes, read: Read) -> tuple[Held | None, list[Finding]]:
        """Keep what reading came to; and that, with the entry held, if there is one."""
        entry, findings = read
        outline = None if entry is None else outline_of(entry)
        if self.kept.path is not None:
            pack = b"" if entry is None else packed(entry.source)
            self.kept.put(key, (as_rows(findings), None if outline is None else tuple(outline)), pack)
        held = None if entry is None or outline is None else Held(outline, lambda: entry)
        self._read[key] = held, findings
        return held, findings


def packed(source: Source) -> bytes:
    """What a file's text was read as, in bytes."""
    return marshal.dumps((source.data, source.values, source.keys, source.private, source.faulty))


def unpacked(pack: bytes, file: EntryFile, content: bytes) -> Entry | None:
    """The entry of a file whose text was packed before; None where that cannot be had."""
    from bowlbook.entries.validate import validate

    try:
        data, values, keys, private, faulty = marshal.loads(pack)
    except (EOFError, ValueError, TypeError):
        return None
    source = _PackedSource(file.shown_as, content, private, data, values, keys, faulty)
    return validate(file.kind, file.id, source)[0] if isinstance(data, dict) else None


class _PackedSource(Source):
    """A source whose text is made from the file's bytes when somebody asks for it."""

    __slots__ = ("content",)

    def __init__(
        self,
        path: str,
        content: bytes,
        private: frozenset[str],
        data: dict[str, Any],
        values: Places,
        keys: Places,
        faulty: frozenset[Loc],
    ) -> None:
        self.path = path
        self.content = content
        self.private = private
        self.data = data
        self.values = values
        self.keys = keys
        self.known = None
        self.faulty = faulty
        self.unknown = None
        self.misshapen = frozenset()
        self._lines = {}

    def __getattr__(self, name: str) -> Any:
        if name != "text":
            raise AttributeError(name)
        self.text = decode(self.content)[0]
        return self.text

    def __reduce__(self) -> tuple[Any, ...]:
        given = self.path, self.content, self.private, self.data, self.values, self.keys, self.faulty
        return _PackedSource, given
