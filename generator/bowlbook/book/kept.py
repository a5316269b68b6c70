"""What was worked out before, kept in the user's own cache folder, one file a book and purpose.

Nothing kept can be stale: its key is all that it depends on, the files' bytes and the program among it, and
whatever is different has another key. And nothing is believed in doubt: only a file that belongs to the user,
that nobody else may write to, and whose content is what was written.
"""

import importlib.util
import os
import stat
import sys
from contextlib import suppress
from functools import cache
from pathlib import Path

try:
    from _blake2 import blake2b  # hashlib's own, without what hashlib loads besides
except ImportError:  # pragma: no cover - another Python keeps it elsewhere
    from hashlib import blake2b

LIBRARIES = ("yaml", "babel")
"""The libraries that have a say in what a book comes to."""
DIGEST, LENGTH = 32, 8
"""Bytes of a digest, and of the length of an index."""


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
