"""What is known of the site that was published last, so that the next build writes only what changed."""

import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

Stamp = tuple[int, int, int]
"""Size, time of the last write in nanoseconds, and inode. Unlike the status time, a hard link keeps them."""
Target = tuple[str, str]
"""A file of the site that links lead to, and the anchor in it; empty for the file itself."""


class SiteFile(NamedTuple):
    """A published file: the digest of everything it was made from, and its stamp.

    The digest is empty for a file that each build writes: its bytes are compared instead.
    """

    key: bytes
    stamp: Stamp


@dataclass(frozen=True, slots=True)
class Inputs:
    """Everything a build reads, and its digest.

    ``paths``: files and folders, absolute. ``recipes``: the book's folder, and ``release``: what it is
    compared with, as ``mkdocs.yml`` says. Without paths it cannot be known what a build reads.
    """

    digest: bytes = b""
    paths: tuple[str, ...] = ()
    recipes: str = ""
    release: str = "none"


@dataclass(frozen=True, slots=True)
class Record:
    """A published site.

    ``common``: the digest of what all its pages were made from. ``lists_pages``: whether a template looks
    into the list of all pages, so that each page depends on it. ``packs``: packs of the copy for the phone by
    the digest of their files' names. ``targets``: all that its links lead to. ``warnings``: of its build.
    """

    files: Mapping[str, SiteFile] = field(default_factory=dict)
    common: bytes = b""
    lists_pages: bool = False
    packs: Mapping[bytes, str] = field(default_factory=dict)
    targets: frozenset[Target] = frozenset()
    warnings: tuple[str, ...] = ()
    inputs: Inputs = Inputs()

    def is_intact(self, site: Path) -> bool:
        """Whether every file of the site is as it was published, and there is no other."""
        found = dict(stamps_under(site))
        return found == {name: file.stamp for name, file in self.files.items()}


def stamp_at(state: os.stat_result) -> Stamp:
    """The stamp of a file in this state."""
    return state.st_size, state.st_mtime_ns, state.st_ino


def stamps_under(folder: Path | str, before: str = "") -> Iterator[tuple[str, Stamp]]:
    """Every file and link under a folder, relative, ``before`` it, with its stamp; links are not followed."""
    with os.scandir(folder) as items:
        for item in items:
            if item.is_dir(follow_symlinks=False):
                yield from stamps_under(item.path, f"{before}{item.name}/")
            else:
                # Not item.stat(): on Windows that one has no inode.
                yield before + item.name, stamp_at(os.lstat(item.path))
