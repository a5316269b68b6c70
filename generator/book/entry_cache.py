"""Entries read before, kept by their content: an unchanged file is not read again, an edit reads one.

Beside a file's findings and its entry's outline lie the entry's fields and its places, packed, and they are
unpacked by themselves where somebody asks for them. The text is the file's own, which was read in any case.
"""

import copyreg
import io
import marshal
import pickle
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any, cast

from generator.book.folder import EntryFile
from generator.book.held import Held
from generator.book.kept import Kept, as_rows, digest, of_rows, program
from generator.book.outline import Outline, outline_of
from generator.entries.entry import Entry
from generator.reading.amount import Count, Mass, Ratio, Span, Volume
from generator.reading.finding import Finding
from generator.reading.guard import decode
from generator.reading.source import Source

Read = tuple[Entry | None, list[Finding]]
ROOMS = ("reading", "entries", "book")
"""The rooms that decide what comes of a file's bytes, and how that is kept."""
LATER = ("text", "data", "places")
"""What of a source is unpacked when it is asked for."""


class EntryCache:
    """What reading came to for each file of one book."""

    def __init__(self, root: Path | None) -> None:
        self.kept = Kept(root, "entries")
        self.save = self.kept.save

    def key(self, file: EntryFile, content: bytes) -> bytes:
        """What a file's reading depends on: how it is shown, its bytes, and the program that reads."""
        told = f"{file.kind}\0{file.id}\0{file.shown_as}".encode("utf-8", "surrogateescape")
        return digest(program(*ROOMS), told, content)

    def get(
        self, key: bytes, file: EntryFile, content: bytes, again: Callable[[], Read]
    ) -> tuple[Held | None, list[Finding]] | None:
        """What reading came to before; None where that is not known.

        ``again`` reads the file anew, for an entry that cannot be unpacked.
        """
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
            packed = self.kept.pack(key)
            try:
                if packed is not None:
                    return unpacked(packed, file, content)
            except Exception:  # as above
                pass
            return cast(Entry, again()[0])

        return Held(told, unpack), findings

    def put(self, key: bytes, read: Read) -> Held | None:
        """Keep what reading came to. The entry, held, if there is one."""
        entry, findings = read
        outline = None if entry is None else outline_of(entry)
        if self.kept.path is not None:
            pack = b"" if entry is None else packed(entry)
            self.kept.put(key, (as_rows(findings), None if outline is None else tuple(outline)), pack)
        return None if entry is None or outline is None else Held(outline, lambda: entry)


def packed(entry: Entry) -> bytes:
    """An entry as bytes, without its text, its path and its id."""
    fields = io.BytesIO()
    pickler = pickle.Pickler(fields, pickle.HIGHEST_PROTOCOL)
    pickler.dispatch_table = REDUCED
    values = {name: value for name, value in vars(entry).items() if name not in ("id", "source")}
    pickler.dump((type(entry), values))
    source = entry.source
    places = marshal.dumps((source.data, source.places, source.private))
    return len(places).to_bytes(4) + places + fields.getvalue()


def unpacked(packed: bytes, file: EntryFile, content: bytes) -> Entry:
    """The entry of a file that was packed before; its text is the file's content."""
    end = 4 + int.from_bytes(packed[:4])
    cls, values = pickle.loads(memoryview(packed)[end:])
    entry: Entry = cls.__new__(cls)
    vars(entry).update(values)
    entry.placed(file.id, _PackedSource(file.shown_as, content, packed[4:end]))
    return entry


def _fraction(number: Fraction) -> tuple[Any, ...]:
    return Fraction, (number.numerator, number.denominator)


REDUCED = copyreg.dispatch_table | {
    Fraction: _fraction,
    Mass: lambda each: (Mass, (each.number, each.unit)),
    Volume: lambda each: (Volume, (each.number, each.unit)),
    Count: lambda each: (Count, (each.number,)),
    Ratio: lambda each: (Ratio, (each.left, each.right)),
    Span: lambda each: (Span, (each.low, each.high)),
}
"""Amounts that are made again by their class, from plain numbers: quicker than their own way."""


class _PackedSource(Source):
    """A source that unpacks itself when its text or anything in it is asked for."""

    __slots__ = ("content", "packed")

    def __init__(self, path: str, content: bytes, packed: bytes) -> None:
        self.path = path
        self.content = content
        self.packed = packed
        self._located = None
        self._masked = None

    def __getattr__(self, name: str) -> Any:
        if name not in (*LATER, "private"):
            raise AttributeError(name)
        self.text = decode(self.content)[0]
        self.data, self.places, self.private = marshal.loads(self.packed)
        return getattr(self, name)

    def __reduce__(self) -> tuple[Any, ...]:
        return _PackedSource, (self.path, self.content, self.packed)
