"""The files of a book's folder: which kind each one is, what is in it, and what does not belong there."""

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import NamedTuple

from bowlbook.cache.digest import digest_of, stamp_of
from bowlbook.entries.entry_id import ID, LONGEST_ID, LONGEST_PICTURE_NAME, PICTURE_ENDINGS, PICTURE_NAME
from bowlbook.reading.finding import Finding
from bowlbook.reading.guard import read_bytes
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal

FOLDERS = {
    "products": "product",
    "blends": "blend",
    "techniques": "technique",
    "situations": "situation",
    "classes": "class",
    "troubles": "trouble",
}
"""Folder of ``recipes/`` to the kind of entry in it."""

PICTURES = "pictures"
"""The folder of ``recipes/`` with the house's own pictures."""

FOLDER_OF = {kind: folder for folder, kind in FOLDERS.items()}

JOURNAL = ".bowlbook-prices"
"""The folder in a book with contents of which some may be in their files and others not (`replacing`)."""

# Names that cannot be a file on every system a house may copy its book to.
RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9]|index)")


class EntryFile(NamedTuple):
    """One file that is an entry: kind, id, and its path, with forward slashes, as findings show it too."""

    kind: str
    id: str
    shown_as: str
    shared: bool = False

    def digest(self, content: bytes) -> bytes:
        """The digest of all that the entry in this file and its findings are made from."""
        return digest_of(f"{self.kind} {self.id} {self.shown_as}", content)


class FoundPicture(NamedTuple):
    """A file in the folder of pictures: name, path with forward slashes, and the file's state."""

    name: str
    shown_as: str
    stamp: tuple[int, int, int]


@dataclass(eq=False, repr=False)
class Folder:
    """A book's folder as it was found, each file read once: its bytes, or why it cannot be read.

    Shared products come last. ``no_shelf``: why their folder, which the house names, cannot be had.
    """

    files: list[tuple[EntryFile, bytes | Refusal]]
    findings: list[Finding]
    no_shelf: Refusal | None = None
    pictures: tuple[FoundPicture, ...] = ()

    @cached_property
    def digests(self) -> dict[EntryFile, bytes]:
        """The digest of each file that can be read."""
        return {file: file.digest(content) for file, content in self.files if isinstance(content, bytes)}


def content_of(file: EntryFile) -> bytes | Refusal:
    """A file's bytes, or why it cannot be read."""
    try:
        return read_bytes(file.shown_as)
    except Refusal as refusal:
        return refusal


def list_folder(root: Path) -> tuple[list[EntryFile], list[Finding]]:
    """Every entry file under ``root``, by kind and id, and a finding for each thing out of place.

    Follows no symbolic link and looks no deeper than the folders of a book. Hidden files are left alone.
    Where a folder cannot be read, that is the one finding: all that is in it would be missed everywhere.
    """
    if not os.path.isdir(root):  # noqa: PTH112  # a Path raises for names that cannot be any
        mend = 'Name the book\'s folder with --recipes, or make one with: bowlbook new house "Name".'
        return [], [_out_of_place(root.as_posix(), "no-book", "There is no such folder.", mend)]
    try:
        return _listed(root)
    except OSError as error:
        message = f"This folder cannot be read: {(error.strerror or 'unknown reason').lower()}."
        mend = "Check that the folder exists and that you may read it."
        return [], [_out_of_place(Path(error.filename or root).as_posix(), "not-a-file", message, mend)]


def _listed(root: Path) -> tuple[list[EntryFile], list[Finding]]:
    found: list[EntryFile] = []
    findings: list[Finding] = []
    for item in _items(root):
        name, path = item.name, root / item.name
        if name == "house.yml":
            found.append(EntryFile("house", "house", path.as_posix()))
        elif item.is_symlink():
            findings.append(_link(path.as_posix()))
        elif not item.is_dir():
            message = "Beside house.yml a book holds folders only."
            mend = "Move it into the folder of its kind: " + ", ".join((*FOLDERS, PICTURES)) + "."
            findings.append(_out_of_place(path.as_posix(), "misplaced-file", message, mend))
        elif name in FOLDERS:
            list_kind(path, FOLDERS[name], found, findings)
        elif name != PICTURES:  # `list_pictures` looks into that one
            from bowlbook.reading.nearest import did_you_mean  # only where something is wrong

            known = (*FOLDERS, PICTURES)
            mend = did_you_mean(name, known) or "Use: " + ", ".join(known) + "."
            message = "This folder is not one of a book's."
            findings.append(_out_of_place(path.as_posix(), "misplaced-file", message, mend))
    if os.path.lexists(root / JOURNAL):
        message = (
            "Prices or a table were being taken over when the program ended; some files may be old, some new."
        )
        mend = "Run bowlbook prices again, or bowlbook import: it first finishes what was begun."
        findings.append(_out_of_place(str(root / JOURNAL), "bad-price-list", message, mend))
    if not any(file.kind == "house" for file in found):
        mend = 'Write one: bowlbook new house "Name of the house".'
        message = "The book has no house.yml."
        findings.append(_out_of_place((root / "house.yml").as_posix(), "no-house", message, mend))
    return sorted(found), findings


def list_kind(folder: Path, kind: str, found: list[EntryFile], findings: list[Finding]) -> None:
    """Add every entry file of a kind's folder to ``found``, and a finding for each thing out of place."""
    for item, shown_as in _files_in(folder, "a kind's folder", findings):
        name = item.name
        stem = name.removesuffix(".yml")
        if not name.endswith(".yml"):
            message = "Only files that end in .yml are entries."
            mend = "Rename it to end in .yml, or move it out of the book."
            findings.append(_out_of_place(shown_as, "bad-file-name", message, mend))
        elif not ID.fullmatch(stem) or len(stem) > LONGEST_ID or RESERVED.fullmatch(stem):
            close = re.sub("[^a-z0-9]+", "-", stem.lower()).strip("-")[:LONGEST_ID] or "a-name"
            message = "A file's name is its entry's id: lower-case letters, digits and single hyphens."
            if RESERVED.fullmatch(stem):
                close, message = f"{close}-1", "Windows keeps this name for a device."
                if stem == "index":
                    message = "The overview of the site has this name."
            findings.append(_out_of_place(shown_as, "bad-file-name", message, f"Rename it to {close}.yml."))
        else:
            found.append(EntryFile(kind, stem, shown_as))


def list_pictures(root: Path) -> tuple[tuple[FoundPicture, ...], list[Finding]]:
    """Every picture's file in a book's folder, by name, and a finding for each thing out of place there.

    Files that programs leave in folders of pictures, as ``Thumbs.db``, are out of place too.
    """
    folder, found = root / PICTURES, []
    findings: list[Finding] = []
    try:
        there = folder.is_dir() and not folder.is_symlink()
        for item, shown_as in _files_in(folder, "the folder of pictures", findings) if there else ():
            if not PICTURE_NAME.fullmatch(item.name) or len(item.name) > LONGEST_PICTURE_NAME:
                message = (
                    "A picture's name has lower-case letters, digits and hyphens, then .jpg, .png or .webp."
                )
                stem, _, ending = item.name.lower().rpartition(".")
                close = re.sub("[^a-z0-9]+", "-", stem).strip("-")[:LONGEST_ID] or "a-picture"
                mend = f"Rename it to {close}.{ending}." if ending in PICTURE_ENDINGS else "Save it as .jpg."
                findings.append(_out_of_place(shown_as, "bad-file-name", message, mend))
            else:
                found.append(FoundPicture(item.name, shown_as, stamp_of(item)))
    except OSError as error:
        message = f"This folder cannot be read: {(error.strerror or 'unknown reason').lower()}."
        mend = "Check that you may read it."
        findings.append(_out_of_place(folder.as_posix(), "not-a-file", message, mend))
    return tuple(found), findings


def _files_in(folder: Path, what: str, findings: list[Finding]) -> Iterator[tuple[os.DirEntry[str], str]]:
    """Each file in a folder with its path; a finding for each link and each folder in it."""
    within = (folder / "-").as_posix()[:-1]
    for item in _items(folder):
        shown_as = within + item.name
        if item.is_symlink():
            findings.append(_link(shown_as))
        elif item.is_dir():
            message = f"A folder inside {what} is not read."
            findings.append(_out_of_place(shown_as, "misplaced-file", message, "Put its files one level up."))
        else:
            yield item, shown_as


def _items(folder: Path) -> list[os.DirEntry[str]]:
    with os.scandir(folder) as items:
        return sorted((item for item in items if not item.name.startswith(".")), key=lambda item: item.name)


def _link(shown_as: str) -> Finding:
    message = "This is a symbolic link, and a book is read from its own files only."
    return _out_of_place(shown_as, "not-a-file", message, "Put the file itself here.")


def _out_of_place(shown_as: str, code: str, message: str, mend: str) -> Finding:
    safe = "".join(sign if sign.isprintable() else "?" for sign in shown_as)
    return Finding(Place(safe, 1, 1), code, message, mend)
