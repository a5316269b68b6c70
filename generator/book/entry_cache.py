"""Entries read before, kept by their content: an unchanged file is not read again, an edit reads one.

A cache holds nothing that the book does not say, and is thrown away whenever there is a doubt: its key is the
file's bytes, how it is shown, and the program that read it.
"""

import hashlib
import importlib.util
import marshal
import os
import pickle
import stat
import sys
import tempfile
from contextlib import suppress
from functools import cache
from pathlib import Path

from generator.book.folder import EntryFile
from generator.entries.entry import Entry
from generator.reading.finding import Finding

Read = tuple[Entry | None, list[Finding]]
ROOMS = ("reading", "entries")
"""The rooms that decide what comes of a file's bytes."""
LIBRARIES = ("yaml", "pydantic", "pydantic_core")


class EntryCache:
    """What reading came to for each file of one book, in the user's own cache folder.

    Without a root nothing is kept. BOWLBOOK_CACHE names another folder, or is ``off``. Only a file that
    belongs to the user, and that nobody else may write to, is trusted.
    """

    def __init__(self, root: Path | None) -> None:
        self.path = cache_file(root, "entries") if root is not None else None
        self.known = _load(self.path)
        self.used: dict[bytes, bytes] = {}
        self.changed = False

    def key(self, file: EntryFile, content: bytes) -> bytes:
        """What a file's reading depends on, as 32 bytes; nothing where nothing is kept."""
        if self.path is None:
            return b""
        told = f"\0{file.kind}\0{file.id}\0{file.shown_as}\0".encode("utf-8", "surrogateescape")
        return hashlib.blake2b(_program() + told + content, digest_size=32).digest()

    def get(self, key: bytes) -> Read | None:
        """What reading came to before; None where that is not known."""
        packed = self.known.get(key)
        if packed is None:
            return None
        try:
            read: Read = pickle.loads(packed)
        except Exception:  # whatever is wrong with it, the file itself is read instead
            return None
        self.used[key] = packed
        return read

    def put(self, key: bytes, read: Read) -> None:
        """Keep what reading came to."""
        if self.path is not None:
            self.used[key] = pickle.dumps(read, pickle.HIGHEST_PROTOCOL)
            self.changed = True

    def save(self) -> None:
        """Write what was used or new in one step, if anything is different. A fault leaves it as it was."""
        if self.path is None or (not self.changed and len(self.used) == len(self.known)):
            return
        with suppress(OSError):
            self.path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            handle, name = tempfile.mkstemp(dir=self.path.parent)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(marshal.dumps(self.used))
                Path(name).replace(self.path)
            except BaseException:
                Path(name).unlink(missing_ok=True)
                raise


def cache_file(root: Path, ending: str) -> Path | None:
    """Where what is known of a book's folder is kept, in the user's cache folder; None where nothing is."""
    wanted = os.environ.get("BOWLBOOK_CACHE", "")
    if wanted == "off":
        return None
    folder = Path(wanted or os.environ.get("XDG_CACHE_HOME") or Path("~/.cache").expanduser())
    if not folder.is_absolute():
        return None
    name = hashlib.blake2b(os.fsencode(root.resolve()), digest_size=12).hexdigest()
    return folder / "bowlbook" / f"{name}.{ending}"


def _load(path: Path | None) -> dict[bytes, bytes]:
    """The content of a cache file that can be trusted, else nothing."""
    if path is None:
        return {}
    try:
        with path.open("rb") as file:
            state = os.fstat(file.fileno())
            if state.st_uid != os.geteuid() or stat.S_IMODE(state.st_mode) & 0o022:
                return {}
            found = marshal.loads(file.read())
    except (OSError, ValueError, EOFError, TypeError):
        return {}
    return found if isinstance(found, dict) else {}


@cache
def _program() -> bytes:
    """What stands for the program that reads: Python, the two rooms' files, and the libraries behind them."""
    package = Path(__file__).parents[1]
    files = [path for room in ROOMS for path in sorted((package / room).glob("*.py"))]
    for library in LIBRARIES:
        spec = importlib.util.find_spec(library)
        files += [Path(spec.origin)] if spec is not None and spec.origin else []
    stamps = [(str(path), path.stat().st_size, path.stat().st_mtime_ns) for path in files]
    return hashlib.blake2b(f"{sys.version} {stamps}".encode()).digest()
