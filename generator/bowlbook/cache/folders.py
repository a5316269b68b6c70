"""The empty folders of a site that was replaced, kept for the next one.

A site has a folder for each page, and a file system takes longer to make one than to link a file: of a build
after one edit of a thousand recipes, making them was a third (100 to 300 µs each on a well used ext4). No
file is kept, so nothing old can be published or read.
"""

import stat
from contextlib import suppress
from pathlib import Path

from bowlbook.cache.place import is_private


def take_folders(kept: Path | None, folder: Path, mode: int) -> None:
    """Begin a new ``folder`` with the kept folders in it, or empty where none can be trusted."""
    if kept is not None and is_private(kept, stat.S_ISDIR):
        with suppress(OSError):  # on another disk, or another build was quicker
            kept.rename(folder)
            return
    folder.mkdir(mode)


def keep_folders(folder: Path, kept: Path | None) -> bool:
    """Keep a folder in which there are only folders. Returns False where that cannot be."""
    if kept is not None:
        with suppress(OSError):
            kept.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            folder.chmod(0o700)
            folder.rename(kept)
            return True
    return False
