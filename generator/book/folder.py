"""The files of a book's folder: which kind each one is, and what does not belong there."""

import re
from dataclasses import dataclass
from pathlib import Path

from generator.entries.words import ID, LONGEST_ID
from generator.reading.finding import Finding
from generator.reading.nearest import did_you_mean
from generator.reading.place import Place

FOLDERS = {
    "products": "product",
    "blends": "blend",
    "techniques": "technique",
    "situations": "situation",
    "classes": "class",
}
"""Folder of ``recipes/`` to the kind of entry in it."""

FOLDER_OF = {kind: folder for folder, kind in FOLDERS.items()}

# Names that cannot be a file on every system a house may copy its book to.
RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9]|index)")


@dataclass(frozen=True, slots=True, order=True)
class EntryFile:
    """One file that is an entry: kind, id, where it is, and its path as findings show it.

    ``shared``: whether it stands in a folder that several books take products from.
    """

    kind: str
    id: str
    path: Path
    shown_as: str
    shared: bool = False


def list_folder(root: Path) -> tuple[list[EntryFile], list[Finding]]:
    """Every entry file under ``root``, by kind and id, and a finding for each thing out of place.

    Follows no symbolic link and looks no deeper than the folders of a book. Hidden files are left alone.
    """
    found: list[EntryFile] = []
    findings: list[Finding] = []
    if not root.is_dir():
        mend = 'Name the book\'s folder with --recipes, or make one with: bowlbook new house "Name".'
        return [], [_out_of_place(str(root), "no-book", "There is no such folder.", mend)]
    for name in _names(root):
        path = root / name
        if name == "house.yml":
            found.append(EntryFile("house", "house", path, str(path)))
        elif path.is_symlink():
            findings.append(_link(path))
        elif path.is_dir():
            kind = FOLDERS.get(name)
            if kind is None:
                mend = did_you_mean(name, FOLDERS) or "Use: " + ", ".join(FOLDERS) + "."
                message = "This folder is not one of a book's."
                findings.append(_out_of_place(str(path), "misplaced-file", message, mend))
            else:
                list_kind(path, kind, found, findings)
        else:
            findings.append(
                _out_of_place(
                    str(path),
                    "misplaced-file",
                    "Beside house.yml a book holds folders only.",
                    "Move it into the folder of its kind: " + ", ".join(FOLDERS) + ".",
                )
            )
    if not any(file.kind == "house" for file in found):
        mend = 'Write one: bowlbook new house "Name of the house".'
        message = "The book has no house.yml."
        findings.append(_out_of_place(str(root / "house.yml"), "no-house", message, mend))
    return sorted(found), findings


def list_kind(folder: Path, kind: str, found: list[EntryFile], findings: list[Finding]) -> None:
    """Add every entry file of a kind's folder to ``found``, and a finding for each thing out of place."""
    for name in _names(folder):
        path = folder / name
        stem = name.removesuffix(".yml")
        if path.is_symlink():
            findings.append(_link(path))
        elif path.is_dir():
            message = "A folder inside a kind's folder is not read."
            mend = "Put its files one level up."
            findings.append(_out_of_place(str(path), "misplaced-file", message, mend))
        elif not name.endswith(".yml"):
            message = "Only files that end in .yml are entries."
            mend = "Rename it to end in .yml, or move it out of the book."
            findings.append(_out_of_place(str(path), "bad-file-name", message, mend))
        elif not ID.fullmatch(stem) or len(stem) > LONGEST_ID or RESERVED.fullmatch(stem):
            close = re.sub("[^a-z0-9]+", "-", stem.lower()).strip("-")[:LONGEST_ID] or "a-name"
            message = "A file's name is its entry's id: lower-case letters, digits and single hyphens."
            if RESERVED.fullmatch(stem):
                close, message = f"{close}-1", "This name is kept for the system's own use."
            findings.append(_out_of_place(str(path), "bad-file-name", message, f"Rename it to {close}.yml."))
        else:
            found.append(EntryFile(kind, stem, path, str(path)))


def _names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if not path.name.startswith("."))


def _link(path: Path) -> Finding:
    return _out_of_place(
        str(path),
        "not-a-file",
        "This is a symbolic link, and a book is read from its own files only.",
        "Put the file itself here.",
    )


def _out_of_place(shown_as: str, code: str, message: str, mend: str) -> Finding:
    safe = "".join(sign if sign.isprintable() else "?" for sign in shown_as)
    return Finding(Place(safe, 1, 1), code, message, mend)
