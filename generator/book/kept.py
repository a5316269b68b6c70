"""What was worked out before, kept in the user's own cache folder, one file a book and purpose.

Nothing kept can be stale: its key is all that it depends on, the files' bytes and the program among it, and
whatever is different has another key. And nothing is believed in doubt: only a file that belongs to the user,
that nobody else may write to, and whose content is what was written.
"""

import hashlib
import importlib.util
import marshal
import os
import stat
import sys
from contextlib import suppress
from functools import cache
from pathlib import Path
from typing import Any

from generator.reading.finding import Finding
from generator.reading.place import Place

LIBRARIES = ("yaml", "babel")
"""The libraries that have a say in what a book comes to."""
DIGEST = 32


class Kept:
    """Plain values by key, as marshal knows them. ``purpose`` names the file; without a root nothing is kept.

    BOWLBOOK_CACHE names another folder than the user's usual one, or is ``off``.
    """

    def __init__(self, root: Path | None, purpose: str) -> None:
        self.path = kept_file(root, purpose) if root is not None else None
        self.known = _load(self.path)
        self.used: dict[bytes, Any] = {}
        self.changed = False

    def get(self, key: bytes) -> Any:
        """What was kept under a key; None where nothing was."""
        found = self.known.get(key)
        if found is not None:
            self.used[key] = found
        return found

    def put(self, key: bytes, value: Any) -> None:
        """Keep a value."""
        if self.path is not None:
            self.used[key] = value
            self.changed = True

    def save(self) -> None:
        """Write what was used or new in one step, if anything is different. A fault leaves it as it was."""
        if self.path is None or (not self.changed and len(self.used) == len(self.known)):
            return
        import tempfile

        content = marshal.dumps(self.used)
        with suppress(OSError):
            self.path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            handle, name = tempfile.mkstemp(dir=self.path.parent)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(digest(content) + content)
                Path(name).replace(self.path)
            except BaseException:
                Path(name).unlink(missing_ok=True)
                raise


def digest(*parts: bytes) -> bytes:
    """What stands for these bytes in this order: 32 bytes (BLAKE2b, RFC 7693), each part with its length."""
    found = hashlib.blake2b(digest_size=DIGEST)
    for part in parts:
        found.update(b"%d\0" % len(part))
        found.update(part)
    return found.digest()


@cache
def program(*rooms: str) -> bytes:
    """What stands for the program as it is: Python, the files of these rooms, the libraries behind them."""
    package = Path(__file__).parents[1]
    files = [entry for room in rooms for entry in os.scandir(package / room) if entry.name.endswith(".py")]
    stamps = sorted((entry.path, *stamp_of(entry)) for entry in files)
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
    """Whether a file is the user's, in a folder of the user's, and nobody else may write to either."""
    with suppress(OSError):
        states = (path.lstat(), path.parent.stat())
        return stat.S_ISREG(states[0].st_mode) and all(
            state.st_uid == os.geteuid() and not stat.S_IMODE(state.st_mode) & 0o022 for state in states
        )
    return False


Row = tuple[str, int, int, str, str, str, str, str]
"""A finding as plain values."""


def as_rows(findings: list[Finding]) -> list[Row]:
    """Findings as they are kept."""
    rows: list[Row] = []
    for each in findings:
        path, line, column = each.place.path, each.place.line, each.place.column
        rows.append((path, line, column, each.code, each.message, each.mend, each.excerpt, each.severity))
    return rows


def of_rows(rows: list[Row]) -> list[Finding]:
    """Kept findings as they were."""
    return [
        Finding(Place(path, line, column), code, message, mend, excerpt, severity)  # type: ignore[arg-type]
        for path, line, column, code, message, mend, excerpt, severity in rows
    ]


def kept_file(root: Path, purpose: str) -> Path | None:
    """Where what is known of a book's folder is kept, in the user's cache folder; None where nothing is."""
    wanted = os.environ.get("BOWLBOOK_CACHE", "")
    if wanted == "off":
        return None
    home = os.environ.get("HOME")
    usual = Path(home) / ".cache" if home else Path()  # without a home nothing is kept
    folder = Path(wanted or os.environ.get("XDG_CACHE_HOME") or usual)
    if not folder.is_absolute():
        return None
    name = hashlib.blake2b(os.fsencode(root.resolve()), digest_size=12).hexdigest()
    return folder / "bowlbook" / f"{name}.{purpose}"


def _load(path: Path | None) -> dict[bytes, Any]:
    """The content of a file that can be trusted, else nothing."""
    if path is None or not is_own(path):
        return {}
    try:
        with path.open("rb") as file:
            written, content = file.read(DIGEST), file.read()
            found = marshal.loads(content) if digest(content) == written else None
    except (OSError, ValueError, EOFError, TypeError):
        return {}
    return found if isinstance(found, dict) else {}
