"""``bowlbook format``: every entry in one order and style, with its comments; what it says stays the same."""

import os
import sys
import tempfile
from contextlib import suppress
from pathlib import Path

import click

from bowlbook.book.folder import EntryFile, list_folder
from bowlbook.commands.printer import echo, print_findings, recipes_option
from bowlbook.formatting.formatted import formatted
from bowlbook.reading import guard
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal


@click.command()
@recipes_option
@click.option("--check", is_flag=True, help="Write nothing; name the files that would change, and exit 1.")
def command(recipes: Path, check: bool) -> None:
    """Write every entry of a book in one order and style.

    Comments, and everything that an entry says, stay. A file of which something could be lost is left as it
    is, and named.
    """
    files, findings = list_folder(recipes)
    # Where there is nothing to format, what was found says why. An interrupted run is still to be finished:
    # it would overwrite what is formatted now, or refuse it.
    stops = [each for each in findings if not files or each.code == "bad-price-list"]
    if stops:
        print_findings(stops, err=True)
        sys.exit(1)
    changes: list[tuple[Path, bytes, bytes]] = []
    left: list[Finding] = []
    for file in files:
        old, new, wrong = _formatted(file)
        left += wrong
        if new != old and not wrong:
            changes.append((Path(file.shown_as), old, new))
    for path, old, new in changes:
        echo(f"Would format {path}." if check else f"Formatted {path}.")
        if not check:
            left += _write(path, old, new)
    if left:
        print_findings(left, err=True)
    done = "would change" if check else "formatted"
    echo(f"{len(changes)} of {len(files)} files {done}.", err=True)
    sys.exit(1 if left or (check and changes) else 0)


def _formatted(file: EntryFile) -> tuple[bytes, bytes, list[Finding]]:
    """A file's bytes, and as they are to be; or the findings for which it is left as it is."""
    try:
        old = guard.read_bytes(file.shown_as)
        text, _ = guard.decode(old)
    except Refusal as refusal:
        return b"", b"", [finding_of(refusal, Place(file.shown_as, *refusal.at))]
    made, findings = formatted(text, file.kind, file.shown_as)
    return old, made.encode("utf-8"), findings


def _write(path: Path, old: bytes, new: bytes) -> list[Finding]:
    """Put the new file in the place of the old one in one step. A finding where that cannot be."""
    try:
        # Replacing needs rights in the folder only: a read-only file would be replaced too.
        if not os.access(path, os.W_OK):
            raise PermissionError(13, "it is read-only")
        handle, name = tempfile.mkstemp(prefix=".bowlbook-", dir=path.parent)
        staged = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(new)
                file.flush()
                os.fsync(file.fileno())
            staged.chmod(path.stat().st_mode & 0o777)
            # Somebody may have saved it in an editor since it was read.
            if path.read_bytes() != old:
                raise OSError(0, "it was changed meanwhile")
            staged.replace(path)
        finally:
            with suppress(FileNotFoundError):
                staged.unlink()
    except OSError as error:
        message = f"This file was not written: {error.strerror}."
        return [
            Finding(
                Place(path.as_posix(), 1, 1),
                "not-formatted",
                message,
                "Look at it, and run bowlbook format again.",
            )
        ]
    return []
