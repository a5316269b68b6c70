"""Publishing: build beside the old site, look it over, then put it in its place in one step."""

import ctypes
import errno
import os
import re
import secrets
import sys
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager, suppress
from pathlib import Path
from typing import NamedTuple

from bowlbook.cache.folders import take_folders
from bowlbook.site import manifest
from bowlbook.site.incremental import Incremental
from bowlbook.site.lock import locked
from bowlbook.site.record import Record
from bowlbook.site.verify import look_over

AT_FDCWD = -100
RENAME_EXCHANGE = 2
OLD = "-old"
"""Ends the name of a site that was put aside where two names cannot be exchanged."""
LOCK = "-lock"
"""Ends the name of a lock file: of a site while names beside it change, of a folder while it is built."""
FOR_US_ALONE = 0o777 if sys.platform == "win32" else 0o700
"""The rights of a folder that is built. On Windows 0o700 makes a list of rights that no chmod undoes."""


class NotPublished(Exception):
    """The site was not replaced. The message says why, for the person at the terminal."""


MOST_SHOWN = 20
"""Faults of a site that are printed."""


class Published(NamedTuple):
    """What is known of the new site, and where files that no build made were found too late and kept."""

    record: Record
    kept: Path | None


def publish(
    build: Callable[[Path], object],
    site: Path,
    incremental: Incremental | None = None,
    *,
    replace: bool = False,
    folders: Path | None = None,
) -> Published:
    """Run ``build`` into a new folder beside ``site``, look the result over, and swap the two.

    ``build`` lists what it made (`bowlbook.site.manifest`), and leaves no empty folder.
    Raises `NotPublished` where ``site`` holds files that no build made, or another audience's copy and not
    ``replace``, or where the new site has a fault; `NoLock` where no lock file can be made; OSError where
    the disk is full or may not be written to. Whatever is raised, the old site stays as it was and nothing is
    left behind. What a killed build left beside the site is cleared away by the next one. Several builds may
    run at once; the last to end is seen. ``incremental``: what ``build`` takes from the last site.
    ``folders``: where the empty folders of the site that was replaced are kept for the next build.
    """
    site = Path(os.path.normpath(site.absolute()))
    site.parent.mkdir(parents=True, exist_ok=True)
    incremental = incremental or Incremental()
    removed = True
    rights = 0o777 & ~_umask()
    if folders is not None:  # those that were made under another mask would keep their rights
        folders = folders.with_suffix(f".{rights:o}")
    with _begun_beside(site, folders) as beside:
        try:
            manifest.begin_manifest(beside)
            build(beside)
            names = manifest.names_in(beside)
            before = incremental.before
            found = look_over(beside, names, incremental.kept, before.targets, incremental.beneath)
            if found.faults:
                raise NotPublished(_said_of(found.faults))
            beside.chmod(rights)
            record = incremental.record(beside, names, found.targets)
            with _alone_at(site):
                _refuse_strangers(site)
                if not replace:
                    _refuse_other_copy(site, beside)
                swap(beside, site)
        finally:
            # The disk may be full or gone: what cannot be removed now, the next build clears away.
            with suppress(OSError):
                removed = manifest.remove_made(beside, folders)
    return Published(record, None if removed else beside)


def _said_of(faults: list[str]) -> str:
    """The first faults, and how many there are."""
    count = f"{len(faults)} fault" + "s" * (len(faults) != 1)
    more = [f"… and {len(faults) - MOST_SHOWN} more."] if len(faults) > MOST_SHOWN else []
    return "\n".join([f"The new site has {count}; the old one stays.", *faults[:MOST_SHOWN], *more])


@contextmanager
def _begun_beside(site: Path, folders: Path | None) -> Iterator[Path]:
    """A new folder without files beside a site, held by this process."""
    beside = site.with_name(f".{site.name}-{secrets.token_hex(4)}")
    with ExitStack() as held:
        with _alone_at(site):
            _clear_up(site)
            _refuse_strangers(site)
            held.enter_context(locked(_lock_of(beside)))
            take_folders(folders, beside, FOR_US_ALONE)
        yield beside


def _refuse_strangers(site: Path) -> None:
    foreign = manifest.strangers(site)
    if foreign:
        raise NotPublished(
            f"{site} holds files that bowlbook did not make ({', '.join(foreign[:3])}); "
            "name an empty folder with --site, or move them away."
        )


def _refuse_other_copy(site: Path, new: Path) -> None:
    other = manifest.other_copy(site, manifest.audience_in(new) or "unknown")
    if other is not None:
        raise NotPublished(f"{other} Name another folder with --site, or replace it with --replace.")


def swap(new: Path, site: Path) -> None:
    """Put ``new`` in the place of ``site``; what was there is at ``new`` afterwards.

    One system call where the file system can exchange two names (Linux ``renameat2``), two renames else: then
    there is a moment without a site, and should the power fail in it, the next build puts the old one back.
    """
    if not site.exists():
        new.rename(site)
        return
    if _exchange(new, site):
        return
    aside = new.with_name(new.name + OLD)
    site.rename(aside)
    try:
        new.rename(site)
    except BaseException:
        aside.rename(site)
        raise
    aside.rename(new)


def _exchange(one: Path, other: Path) -> bool:
    """Exchange two names in one step. False where the system cannot."""
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None) if os.name == "posix" else None
    if rename is None:
        return False
    if rename(AT_FDCWD, os.fsencode(one), AT_FDCWD, os.fsencode(other), RENAME_EXCHANGE) == 0:
        return True
    code = ctypes.get_errno()
    if code in (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP):
        return False
    raise OSError(code, os.strerror(code), str(other))


def _clear_up(site: Path) -> None:
    """Bring back a site that a killed build had put aside, and remove what killed builds left.

    A folder is one of ours if it carries the name that `publish` gives, no running build holds it, and it
    has a manifest, or nothing at all, in it.
    """
    own = re.compile(rf"(\.{re.escape(site.name)}-[a-z0-9_]{{8}})(?:{OLD}|{LOCK})?")
    for left in sorted(site.parent.iterdir()):
        found = own.fullmatch(left.name)
        if not found or left.is_symlink() or (left.name.endswith(LOCK) != left.is_file()):
            continue
        with locked(_lock_of(site.with_name(found[1])), wait=False) as free:  # which removes the lock's file
            if not free or not left.is_dir():
                continue
            if not ((left / manifest.MANIFEST).is_file() or not any(left.iterdir())):
                continue
            if left.name.endswith(OLD) and not site.exists():
                left.rename(site)
            else:
                manifest.remove_made(left)


def _lock_of(folder: Path) -> Path:
    """The lock file of a folder that is being built."""
    return folder.with_name(folder.name + LOCK)


def _alone_at(site: Path) -> AbstractContextManager[bool]:
    """Keep other builds of a site out while names beside it change."""
    return locked(site.with_name(f".{site.name}{LOCK}"))


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
