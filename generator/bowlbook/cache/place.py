"""Where a book's store is kept, and whether a file there can be trusted."""

import os
import stat
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from bowlbook.cache.digest import digest_of


def store_path(book: Path) -> Path | None:
    """The store of a book's folder, in the user's own cache folder; None where nothing is to be kept.

    BOWLBOOK_CACHE names another folder than the user's usual one, or is ``off``.
    """
    return _in_cache(book, ".sqlite")


def folders_path(book: Path) -> Path | None:
    """Where the empty folders of a book's last site but one are kept; None where nothing is to be kept."""
    return _in_cache(book, ".folders")


def _in_cache(book: Path, ending: str) -> Path | None:
    wanted = os.environ.get("BOWLBOOK_CACHE", "")
    if wanted == "off":
        return None
    folder = Path(wanted, "bowlbook") if wanted else _usual_folder()
    if not folder.is_absolute():  # a user without a home folder
        return None
    name = digest_of(os.fsencode(os.path.realpath(book))).hex()[:24]
    return folder / f"{name}{ending}"


def _usual_folder() -> Path:
    """Where this system keeps what a user's programs may lose at any time."""
    from platformdirs import user_cache_path  # only where BOWLBOOK_CACHE names no folder

    try:
        return user_cache_path("bowlbook", appauthor=False)
    except RuntimeError:  # a user without a home folder
        return Path()


def is_private(path: Path, is_kind: Callable[[int], bool] = stat.S_ISREG) -> bool:
    """Whether a file is the user's, in a folder of the user's, and nobody else may write to either.

    ``is_kind``: whether the mode of what is there is that of a file, or of whatever is expected.

    Stored values are unpickled, which runs what they say: nobody else's are read. Where the system has no
    numbers of users, as on Windows, the rights of the user's folders are trusted.
    """
    with suppress(OSError):
        states = (path.lstat(), path.parent.stat())
        user = os.geteuid() if hasattr(os, "geteuid") else None
        return is_kind(states[0].st_mode) and all(
            user is None or (state.st_uid == user and not stat.S_IMODE(state.st_mode) & 0o022)
            for state in states
        )
    return False


def make_private(path: Path) -> None:
    """Begin an empty file of the user's alone, in place of one that cannot be trusted. Raises OSError."""
    path.unlink(missing_ok=True)
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    path.touch(0o600, exist_ok=False)
