"""Locks between processes: a file beside what it guards, held until the process ends in whatever way."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, SoftFileLock, Timeout


class NoLock(OSError):
    """No lock file can be made at ``filename``, or the file system has no locks."""


@contextmanager
def locked(path: Path, *, wait: bool = True) -> Iterator[bool]:
    """Hold the lock file at ``path``, and remove it afterwards. Yields whether the lock could be had.

    ``wait``: until whoever holds it lets go. Locks the system's own way (``flock``, ``LockFileEx``). Raises
    `NoLock`.
    """
    lock = FileLock(path)
    try:
        # filelock takes "no such file" for a lock that was removed a moment ago, and would wait for ever
        # where a folder takes no files, as under /proc. Where a system has no locks, the file is the lock.
        if not isinstance(lock, SoftFileLock):
            path.touch(0o644)
        lock.acquire(blocking=wait)
    except Timeout:
        yield False
        return
    except OSError as error:
        raise NoLock(error.errno, error.strerror or str(error), os.fspath(path)) from error
    try:
        yield True
    finally:
        # On Windows filelock removes it. Elsewhere a lock of a removed file does not count for filelock.
        if sys.platform != "win32":
            with suppress(OSError):
                path.unlink()
        lock.release()
