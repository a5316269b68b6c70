"""Digests: of bytes, of a file's state, and of the program itself."""

import importlib.util
import os
import sys
from functools import cache
from pathlib import Path

try:
    from _blake2 import blake2b  # hashlib's own, without the other algorithms that hashlib loads
except ImportError:  # pragma: no cover - another Python keeps it elsewhere
    from hashlib import blake2b

DIGEST_SIZE = 32
"""Bytes of a digest."""
LIBRARIES = ("babel", "deflate", "jinja2", "markdown", "markupsafe", "nh3", "yaml", "zxingcpp")
"""The libraries that results are made with, beside this program."""
WITHOUT_REFERENCES = 2
"""The version of `marshal` that writes equal values as equal bytes, whether or not they are one object."""
SAFELY = ("utf-8", "surrogatepass")
"""How text becomes bytes: also a file name that is no Unicode text."""


def digest_of(*parts: bytes | str) -> bytes:
    """The digest of these parts in this order: 32 bytes (BLAKE2b, RFC 7693), each part with its length."""
    found = blake2b(digest_size=DIGEST_SIZE)
    for part in parts:
        content = part.encode(*SAFELY) if isinstance(part, str) else part
        found.update(b"%d\0" % len(content))
        found.update(content)
    return found.digest()


def stamp_of(file: Path | os.DirEntry[str]) -> tuple[int, int, int]:
    """Size, time of change and time of status change: differs for another file in the same place.

    Times in nanoseconds. The third one also changes where a program sets the second one back.
    """
    state = file.stat()
    return state.st_size, state.st_mtime_ns, state.st_ctime_ns


@cache
def program_digest() -> bytes:
    """The digest of the program: Python's version, the state of each of its files, and of its libraries.

    Any of them changed, and no result of before is used.
    """
    stamps = sorted(_stamps_under(Path(__file__).parents[1]))
    return digest_of(sys.version, repr(stamps + library_stamps(LIBRARIES)))


def library_stamps(names: tuple[str, ...]) -> list[tuple[str, int, int, int]]:
    """Of each of these libraries that is installed: the file that it begins with, and that file's state."""
    specs = [importlib.util.find_spec(name) for name in names]
    origins = [spec.origin for spec in specs if spec is not None and spec.origin]
    return [(origin, *stamp_of(Path(origin))) for origin in origins]


def _stamps_under(folder: Path | str) -> list[tuple[str, int, int, int]]:
    found = []
    for entry in os.scandir(folder):
        if entry.is_dir():
            if entry.name != "__pycache__":
                found += _stamps_under(entry.path)
        elif entry.is_file():  # an editor's lock may be a link that leads nowhere
            found.append((entry.path, *stamp_of(entry)))
    return found
