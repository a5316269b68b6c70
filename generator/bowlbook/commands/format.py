"""``bowlbook format``: every entry in one order and style, with its comments; what it says stays the same."""

import os
import sys
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

import click

from bowlbook.book.folder import JOURNAL, EntryFile, content_of, list_folder
from bowlbook.commands.printer import echo, print_findings, recipes_option
from bowlbook.formatting.formatted import formatted
from bowlbook.reading import guard
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal


class _Change(NamedTuple):
    """A file that is written otherwise than it would be: its bytes before and after."""

    path: Path
    old: bytes
    new: bytes


@click.command()
@recipes_option
@click.option("--check", is_flag=True, help="Write nothing; name the files that would change, and exit 1.")
def command(recipes: Path, check: bool) -> None:
    """Write every entry of a book in one order and style.

    Comments, and everything that an entry says, stay. A file of which something could be lost is left as it
    is, and named.
    """
    files, findings = list_folder(recipes)
    if any(each.code == "no-book" for each in findings):
        print_findings(findings, err=True)
        sys.exit(1)
    # An interrupted run is still to be finished: it would overwrite what is formatted now, or refuse it.
    if os.path.lexists(recipes / JOURNAL):
        print_findings([each for each in findings if each.place.path == str(recipes / JOURNAL)], err=True)
        sys.exit(1)
    changes: list[_Change] = []
    left: list[Finding] = []
    for file in files:
        found = _change(file)
        if isinstance(found, _Change):
            changes.append(found)
        else:
            left += found
    for change in changes:
        echo(f"Would format {change.path}." if check else f"Formatted {change.path}.")
        if not check:
            left += _write(change)
    if left:
        print_findings(left, err=True)
    done = "would change" if check else "formatted"
    echo(f"{len(changes)} of {len(files)} files {done}.", err=True)
    sys.exit(1 if left or (check and changes) else 0)


def _change(file: EntryFile) -> _Change | list[Finding]:
    """What would be written of a file, or the findings for which it is left as it is; none for a neat one."""
    content = content_of(file)
    place = Place(file.shown_as, 1, 1)
    if isinstance(content, Refusal):
        return [finding_of(content, place)]
    try:
        text, _ = guard.decode(content)
    except Refusal as refusal:
        return [finding_of(refusal, Place(file.shown_as, *refusal.at))]
    made, findings = formatted(text, file.kind, file.shown_as)
    new = made.encode("utf-8")
    return findings if findings or new == content else _Change(Path(file.shown_as), content, new)


def _write(change: _Change) -> list[Finding]:
    """Put the new file in the place of the old one in one step. A finding where that cannot be."""
    place = Place(change.path.as_posix(), 1, 1)
    try:
        # Replacing needs rights in the folder only: a read-only file would be replaced too.
        if not os.access(change.path, os.W_OK):
            raise PermissionError(13, "it is read-only")
        handle, name = tempfile.mkstemp(prefix=".bowlbook-", dir=change.path.parent)
        staged = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(change.new)
                file.flush()
                os.fsync(file.fileno())
            staged.chmod(change.path.stat().st_mode & 0o777)
            # Somebody may have saved it in an editor since it was read.
            if change.path.read_bytes() != change.old:
                raise OSError(0, "it was changed meanwhile")
            staged.replace(change.path)
        finally:
            with suppress(FileNotFoundError):
                staged.unlink()
    except OSError as error:
        message = f"This file was not written: {error.strerror}."
        return [Finding(place, "not-formatted", message, "Look at it, and run bowlbook format again.")]
    return []
