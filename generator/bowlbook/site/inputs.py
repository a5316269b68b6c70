"""Everything that a build reads, as one digest: where it is that of the last build, nothing has to be built.

Imports no MkDocs, so that this is known within a fraction of a second.
"""

import os
import secrets
from collections.abc import Iterator
from pathlib import Path

from bowlbook.book.revision import NoRevision, commit_of, last_release
from bowlbook.cache.digest import digest_of, library_stamps, program_digest, stamp_of
from bowlbook.entries.entry_id import PICTURE_ENDINGS
from bowlbook.site.record import Inputs

LIBRARIES = ("mkdocs", "material", "pymdownx", "markdown", "jinja2")
"""What the theme is rendered with, beside the libraries of `program_digest`."""


def current(inputs: Inputs, call: tuple[str, ...]) -> bytes:
    """The digest of these inputs as they are now. ``call``: what else the command was given.

    Files count by their names and bytes, pictures by size and times. Where a folder holds a link to another
    folder, or cannot be read, the digest never recurs.
    """
    parts: list[bytes | str] = [program_digest(), libraries_digest(), repr((call, inputs.paths))]
    try:
        parts.append(_release(inputs))
        for path in inputs.paths:
            parts += _content(path)
    except OSError:
        return secrets.token_bytes(32)
    return digest_of(*parts)


def libraries_digest() -> bytes:
    """The digest of the state of `LIBRARIES`."""
    return digest_of(repr(library_stamps(LIBRARIES)))


def _release(inputs: Inputs) -> str:
    """The release that the page of changes compares with, and its commit."""
    folder = Path(inputs.recipes)
    try:
        name = last_release(folder) if inputs.release == "auto" else inputs.release
        return f"{name} {commit_of(folder, name)}" if name and name != "none" else ""
    except NoRevision as error:
        return str(error)


def _content(path: str) -> Iterator[bytes]:
    """The names and bytes of a file, or of every file under a folder."""
    if not os.path.isdir(path):  # noqa: PTH112  # a path as the configuration gives it
        yield Path(path).read_bytes()
        return
    with os.scandir(path) as items:
        entries = sorted(items, key=lambda entry: entry.name)
    for entry in entries:
        yield os.fsencode(entry.path)
        if entry.is_dir():
            if entry.is_symlink():
                raise OSError("a link to a folder may lead back into it")
            yield from _content(entry.path)
        elif entry.name.lower().endswith(PICTURE_ENDINGS) and entry.is_file():
            yield repr(stamp_of(entry)).encode()  # reading all pictures would take longer than the build
        elif entry.is_file():  # no pipe, and no link that leads nowhere
            with open(entry.path, "rb") as file:  # noqa: PTH123  # a Path for each of thousands takes longer
                yield file.read()
