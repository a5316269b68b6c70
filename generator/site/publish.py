"""Publishing: build beside the old site, look it over, then put it in its place in one step."""

import ctypes
import errno
import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from generator.site.manifest import strangers
from generator.site.verify import faults_of

AT_FDCWD = -100
RENAME_EXCHANGE = 2


class NotPublished(Exception):
    """The site was not replaced. The message says why, for the person at the terminal."""


def publish(build: Callable[[Path], None], site: Path) -> int:
    """Run ``build`` into a new folder beside ``site``, look the result over, and swap the two.

    Returns how many files the site has. Raises `NotPublished` where ``site`` holds files that no build made,
    or the new site has a fault; whatever is raised, the old site stays as it was and nothing is left behind.
    """
    foreign = strangers(site)
    if foreign:
        raise NotPublished(
            f"{site} holds files that bowlbook did not make ({', '.join(foreign[:3])}); "
            "name an empty folder with --site, or move them away."
        )
    site.parent.mkdir(parents=True, exist_ok=True)
    beside = Path(tempfile.mkdtemp(prefix=f".{site.name}-", dir=site.parent))
    try:
        build(beside)
        faults = faults_of(beside)
        if faults:
            shown = "\n".join(faults[:20])
            raise NotPublished(f"The new site has {len(faults)} faults; the old one stays.\n{shown}")
        beside.chmod(0o777 & ~_umask())
        files = sum(1 for path in beside.rglob("*") if path.is_file())
        swap(beside, site)
        return files
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def swap(new: Path, site: Path) -> None:
    """Put ``new`` in the place of ``site``; what stood there comes to stand at ``new``.

    One system call where the file system can exchange two names (Linux ``renameat2``), two renames else.
    """
    if not site.exists():
        new.rename(site)
        return
    if _exchange(new, site):
        return
    aside = new.with_name(new.name + "-old")
    site.rename(aside)
    try:
        new.rename(site)
    except OSError:
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


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
