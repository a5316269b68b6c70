"""Entries read before, kept by their content: an unchanged file is not read again, an edit reads one.

Texts and places lie apart from the fields, and are unpacked where a finding or a check of wording needs them.
"""

import io
import marshal
import pickle
from pathlib import Path
from typing import Any

from generator.book.folder import EntryFile
from generator.book.kept import Kept, as_rows, digest, of_rows, program
from generator.entries.entry import Entry
from generator.reading.finding import Finding
from generator.reading.source import Source

Read = tuple[Entry | None, list[Finding]]
ROOMS = ("reading", "entries", "book")
"""The rooms that decide what comes of a file's bytes, and how that is kept."""
FIELDS = ("path", "text", "private", "data", "places")


class EntryCache:
    """What reading came to for each file of one book."""

    def __init__(self, root: Path | None) -> None:
        self.kept = Kept(root, "entries")
        self.save = self.kept.save

    def key(self, file: EntryFile, content: bytes) -> bytes:
        """What a file's reading depends on: how it is shown, its bytes, and the program that reads."""
        told = f"{file.kind}\0{file.id}\0{file.shown_as}".encode("utf-8", "surrogateescape")
        return digest(program(*ROOMS), told, content)

    def get(self, key: bytes) -> Read | None:
        """What reading came to before; None where that is not known."""
        packed = self.kept.get(key)
        if packed is None:
            return None
        entry, rows, source = packed
        try:
            return (_Unpickler(entry, source).load() if entry else None), of_rows(rows)
        except Exception:  # whatever is wrong with it, the file itself is read instead
            return None

    def put(self, key: bytes, read: Read) -> None:
        """Keep what reading came to."""
        if self.kept.path is None:
            return
        entry, findings = read
        fields, source = io.BytesIO(), b""
        if entry is not None:
            _Pickler(fields, pickle.HIGHEST_PROTOCOL).dump(entry)
            source = marshal.dumps([getattr(entry.source, name) for name in FIELDS])
        self.kept.put(key, (fields.getvalue(), as_rows(findings), source))


class _Pickler(pickle.Pickler):
    """Leaves an entry's source out."""

    def persistent_id(self, obj: Any) -> str | None:
        return "source" if isinstance(obj, Source) else None


class _Unpickler(pickle.Unpickler):
    """Puts an entry's packed source in again."""

    def __init__(self, fields: bytes, source: bytes) -> None:
        super().__init__(io.BytesIO(fields))
        self.source = source

    def persistent_load(self, pid: Any) -> Source:
        return _PackedSource(self.source)


class _PackedSource(Source):
    """A source that unpacks itself when any of its fields is asked for."""

    __slots__ = ("packed",)

    def __init__(self, packed: bytes) -> None:
        self.packed = packed
        self._located = None
        self._masked = None

    def __getattr__(self, name: str) -> Any:
        if name not in FIELDS:
            raise AttributeError(name)
        for field, value in zip(FIELDS, marshal.loads(self.packed), strict=True):
            setattr(self, field, value)
        return getattr(self, name)

    def __reduce__(self) -> tuple[Any, ...]:
        return _PackedSource, (self.packed,)
