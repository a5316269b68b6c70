"""What was worked out before, kept in the user's own cache folder, one file a book and purpose.

Nothing kept can be stale: its key is all that it depends on, the files' bytes and the program among it, and
whatever is different has another key. And nothing is believed in doubt: only a file that belongs to the user,
that nobody else may write to, and whose content is what was written.
"""

import importlib.util
import marshal
import os
import stat
import sys
import time
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any

from bowlbook.reading.finding import Finding
from bowlbook.reading.place import Place

try:
    from _blake2 import blake2b  # hashlib's own, without what hashlib loads besides
except ImportError:  # pragma: no cover - another Python keeps it elsewhere
    from hashlib import blake2b

LIBRARIES = ("yaml", "babel")
"""The libraries that have a say in what a book comes to."""
DIGEST, LENGTH = 32, 8
"""Bytes of a digest, and of the length of an index."""


class Kept:
    """Plain values by key, as marshal knows them, and beside each what is packed with it, in bytes.

    A file is the digest of its index, the index, and the packs. The index says of each key its value, and
    where its pack is and what stands for that: a pack is looked at, and believed, by itself. ``purpose``
    names the file; without a root nothing is kept. BOWLBOOK_CACHE names another folder than the user's usual
    one, or is ``off``.
    """

    def __init__(self, root: Path | None, purpose: str) -> None:
        self.path = kept_file(root, purpose) if root is not None else None
        self.known, self._packs = _load(self.path)
        self.used: dict[bytes, Kept.Row] = {}
        self._new: dict[bytes, bytes] = {}

    Row = tuple[Any, int, int, bytes]
    """A value; where its pack begins among the packs, how long it is, and its digest."""

    def get(self, key: bytes) -> Any:
        """What was kept under a key; None where nothing was."""
        found = self.used.get(key) or self.known.get(key)
        if found is None:
            return None
        self.used[key] = found
        return found[0]

    def pack(self, key: bytes) -> bytes | None:
        """The pack beside the value that was kept under a key; None where it is not what was written."""
        if key in self._new:
            return self._new[key]
        _, start, length, written = self.used.get(key) or self.known[key]
        found = self._packs[start : start + length]
        return found if digest(found) == written else None

    def put(self, key: bytes, value: Any, pack: bytes = b"") -> None:
        """Keep a value, and a pack beside it."""
        if self.path is not None:
            self.used[key] = (value, -1, len(pack), b"")
            self._new[key] = pack

    def save(self) -> None:
        """Write what was used or new in one step, if anything is different. A fault leaves it as it was."""
        if self.path is None or (not self._new and len(self.used) == len(self.known)):
            return
        index: dict[bytes, Kept.Row] = {}
        packs: list[bytes] = []
        at = 0
        for key, (value, start, length, written) in self.used.items():
            pack = self._new.get(key)
            if pack is None:
                pack = self._packs[start : start + length]
            else:
                written = digest(pack)
            index[key] = (value, at, length, written)
            packs.append(pack)
            at += length
        first = marshal.dumps(index)
        with suppress(OSError):
            self.path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            beside = self.path.with_name(f"{self.path.name}.{os.getpid()}.{time.monotonic_ns()}")
            try:
                with open(beside, "xb", opener=_for_us_alone) as file:
                    file.write(digest(first) + len(first).to_bytes(LENGTH) + first)
                    file.write(b"".join(packs))
                beside.replace(self.path)
            except BaseException:
                beside.unlink(missing_ok=True)
                raise


def _for_us_alone(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def digest(*parts: bytes) -> bytes:
    """What stands for these bytes in this order: 32 bytes (BLAKE2b, RFC 7693), each part with its length."""
    found = blake2b(digest_size=DIGEST)
    for part in parts:
        found.update(b"%d\0" % len(part))
        found.update(part)
    return found.digest()


@cache
def program(*rooms: str) -> bytes:
    """What stands for the program as it is: Python, the files of these rooms, the libraries behind them."""
    package = Path(__file__).parents[1]
    files = [entry for room in rooms for entry in os.scandir(package / room) if entry.name.endswith(".py")]
    # An editor's lock is a link that leads nowhere.
    stamps = sorted((entry.path, *stamp_of(entry)) for entry in files if entry.is_file())
    for library in LIBRARIES:
        spec = importlib.util.find_spec(library)
        if spec is not None and spec.origin:
            stamps.append((spec.origin, *stamp_of(Path(spec.origin))))
    return digest(f"{sys.version} {stamps}".encode("utf-8", "surrogateescape"))


def stamp_of(file: Path | os.DirEntry[str]) -> tuple[int, int, int]:
    """What is different for another file in the same place: also where all are given one date."""
    state = file.stat()
    return state.st_size, state.st_mtime_ns, state.st_ctime_ns


def is_own(path: Path) -> bool:
    """Whether a file is the user's, in a folder of the user's, and nobody else may write to either.

    Where the system knows no numbers of users, as on Windows, the rights of the user's folders are trusted.
    """
    with suppress(OSError):
        states = (path.lstat(), path.parent.stat())
        user = os.geteuid() if hasattr(os, "geteuid") else None
        return stat.S_ISREG(states[0].st_mode) and all(
            user is None or (state.st_uid == user and not stat.S_IMODE(state.st_mode) & 0o022)
            for state in states
        )
    return False


Row = tuple[Any, ...]
"""A finding as plain values."""


def as_rows(findings: list[Finding]) -> list[Row]:
    """Findings as they are kept."""
    return [(*place, *rest) for place, *rest in findings]


def of_rows(rows: list[Row]) -> list[Finding]:
    """Kept findings as they were."""
    return [Finding(Place(path, line, column), *rest) for path, line, column, *rest in rows]


def kept_file(root: Path, purpose: str) -> Path | None:
    """Where what is known of a book's folder is kept, in the user's cache folder; None where nothing is."""
    wanted = os.environ.get("BOWLBOOK_CACHE", "")
    if wanted == "off":
        return None
    folder = Path(wanted, "bowlbook") if wanted else _usual_folder()
    if not folder.is_absolute():  # without a home nothing is kept
        return None
    name = blake2b(os.fsencode(os.path.realpath(root)), digest_size=12).hexdigest()
    return folder / f"{name}.{purpose}"


def _usual_folder() -> Path:
    """Where this system keeps what a user's programs may lose at any time."""
    from platformdirs import user_cache_path  # only where BOWLBOOK_CACHE names no folder

    try:
        return user_cache_path("bowlbook", appauthor=False)
    except RuntimeError:  # a user without a home
        return Path()


def _load(path: Path | None) -> tuple[dict[bytes, Kept.Row], bytes]:
    """The index and the packs of a file that can be trusted, else nothing."""
    if path is None or not is_own(path):
        return {}, b""
    try:
        with path.open("rb") as file:
            written, length = file.read(DIGEST), int.from_bytes(file.read(LENGTH))
            first = file.read(min(length, path.stat().st_size))
            found = marshal.loads(first) if digest(first) == written else None
            packs = file.read()
        if isinstance(found, dict):
            ends = [start + length for _, start, length, _ in found.values()]
            if len(packs) == max(ends, default=0):
                return found, packs
    except (OSError, ValueError, EOFError, TypeError):
        pass
    return {}, b""
