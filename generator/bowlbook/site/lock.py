"""Locks between processes: a file beside what it guards, held until the process ends in whatever way."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout


@contextmanager
def locked(path: Path, *, wait: bool = True) -> Iterator[bool]:
    """Hold the lock file at ``path``, and remove it afterwards. Yields whether the lock could be had.

    ``wait``: until whoever holds it lets go. Locks the system's own way (``flock``, ``LockFileEx``). Raises
    OSError where the folder may not be written to or has no locks.
    """
    lock = FileLock(path)
    try:
        lock.acquire(blocking=wait)
    except Timeout:
        yield False
        return
    try:
        yield True
    finally:
        # On Windows filelock removes it. Elsewhere a lock of a removed file does not count for filelock.
        if sys.platform != "win32":
            with suppress(OSError):
                path.unlink()
        lock.release()
