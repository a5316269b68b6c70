"""The list of files that a build made, kept in the site, so that nothing else is ever replaced or deleted."""

import errno
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from bowlbook.cache.folders import keep_folders

MANIFEST = ".bowlbook-files"
AUDIENCE = "/audience "
"""Begins the manifest's line on whose copy a folder holds; no name on the list begins with a slash."""
AS_NAMED: Any = {"encoding": "utf-8", "errors": "surrogateescape"}
"""How the list is written: a name that is not UTF-8 is kept as the system gives it."""


def files_under(folder: Path, without: str = "") -> list[str]:
    """Every file and link under a folder, relative, sorted; links to folders are not entered.

    ``without``: the name of folders that are left out with all that is in them.
    """
    return sorted(name for name in _found(str(folder), "", without) if not name.endswith("/"))


def _found(folder: str, before: str, without: str = "") -> Iterator[str]:
    """Every file and link, and, after all that is in it, every folder with a slash at its end."""
    with os.scandir(folder) as items:
        for item in items:
            if item.is_dir(follow_symlinks=False):
                if item.name != without:
                    yield from _found(item.path, f"{before}{item.name}/", without)
                    yield f"{before}{item.name}/"
            else:
                yield before + item.name


def begin_manifest(folder: Path) -> None:
    """Mark an empty folder as one that a build fills: until its list is written, all in it is the build's."""
    (folder / MANIFEST).write_text("", encoding="utf-8")


def write_manifest(site: Path, audience: str, names: Iterable[str]) -> None:
    """Write the list of every file of a site, itself included, and whose copy it is, in one step."""
    listed = sorted({*names, MANIFEST})
    draft = site / f"{MANIFEST}-draft"
    draft.write_text("\n".join([f"{AUDIENCE}{audience}", *listed]) + "\n", newline="\n", **AS_NAMED)
    draft.replace(site / MANIFEST)


def names_in(site: Path) -> list[str]:
    """The files on the list of a site; none before it is written."""
    return [name for name in _listed(site) or () if not name.startswith(AUDIENCE)]


def audience_in(site: Path) -> str | None:
    """Whose copy a folder holds; ``unknown`` for one of an earlier version, None where there is no copy."""
    listed = _listed(site)
    if not listed:
        return None
    said = (line.removeprefix(AUDIENCE) for line in listed if line.startswith(AUDIENCE))
    return next(said, "unknown")


def other_copy(site: Path, audience: str) -> str | None:
    """A sentence where a folder holds, or may hold, another audience's copy than is built; None else."""
    there = audience_in(site)
    if there in (None, audience):
        return None
    if there == "unknown":
        return f"{site} does not say whose copy it holds, and this one is the {audience}'s."
    return f"{site} holds the {there}'s copy, and this one is the {audience}'s."


def strangers(site: Path) -> list[str] | None:
    """Files of an output folder that no build made; all of them where there is no list. None: it is free."""
    if not site.exists() and not site.is_symlink():
        return None
    if not site.is_dir() or site.is_symlink():
        return [site.name]
    made = set(_listed(site) or ())
    return [name for name in files_under(site) if not _is_listed(name, made)]


def without_empty_folders(folder: Path) -> list[str]:
    """Remove the folders in a folder that hold no file at any depth. Returns every file, as `files_under`."""
    kept = [""]
    for name in [*_found(str(folder), "")]:
        if name.endswith("/") and not kept[-1].startswith(name):  # what it holds comes right before it
            os.rmdir(f"{folder}/{name}")  # noqa: PTH106  # a Path for each of thousands takes longer
        else:
            kept.append(name)
    return sorted(name for name in kept[1:] if not name.endswith("/"))


def remove_made(folder: Path, kept: Path | None = None) -> bool:
    """Remove a folder that a build made, the manifest last; files that are not on it stay.

    True where nothing is left. A folder without a manifest is removed only where it is empty. Where only its
    folders are left, they are kept at ``kept`` for the next build.
    """
    if not folder.exists():
        return True
    listed = _listed(folder)
    found = [*_found(str(folder), "")]
    files = {name for name in found if not name.endswith("/")}
    made = files if listed == [] else set(listed or ())  # none listed: half built
    ours = {name for name in files if _is_listed(name, made)}
    for name in ours - {MANIFEST}:
        os.unlink(f"{folder}/{name}")  # noqa: PTH108
    if listed is not None and ours == files and keep_folders(folder, kept):
        return True
    for name in found:
        if name.endswith("/"):
            try:
                os.rmdir(f"{folder}/{name}")  # noqa: PTH106
            except OSError as error:
                if error.errno not in (errno.ENOTEMPTY, errno.EEXIST):
                    raise
    if listed is not None:
        (folder / MANIFEST).unlink()
    if not any(folder.iterdir()):
        folder.rmdir()
    return not folder.exists()


def _listed(folder: Path) -> list[str] | None:
    """The names on a folder's manifest; none while it is being built, None where it has no manifest."""
    manifest = folder / MANIFEST
    return manifest.read_text(**AS_NAMED).split("\n")[:-1] if manifest.is_file() else None


def _is_listed(name: str, made: set[str]) -> bool:
    """Whether a file is on the list. A name with a newline, in an older site, takes several lines there."""
    return name in made or ("\n" in name and made.issuperset(name.split("\n")))
