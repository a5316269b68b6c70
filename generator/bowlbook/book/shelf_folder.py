"""Where a book's shared products stand: the way to their folder, and the book's folder read with them.

Light on purpose: what reads entries is imported only for a house that names such a folder.
"""

import os
from contextlib import suppress
from pathlib import Path

from bowlbook.book.folder import EntryFile, Folder, content_of, list_folder, list_kind, list_pictures
from bowlbook.reading.finding import Finding
from bowlbook.reading.refusal import Refusal

KEY = "products_from"


def read_folder(root: Path) -> Folder:
    """Every file of `list_folder` with what is in it, then those of the shelf that the house names."""
    files, findings = list_folder(root)
    pictures, of_pictures = list_pictures(root)
    findings += of_pictures
    read = [(file, content_of(file)) for file in files]
    house = next((content for file, content in read if file.kind == "house"), None)
    said = _said(house) if isinstance(house, bytes) else None
    if said is None:
        return Folder(read, findings, None, pictures)
    shelf: list[EntryFile] = []
    of_shelf: list[Finding] = []
    try:
        list_kind(shelf_of(root, said), "product", shelf, of_shelf)
    except (Refusal, OSError) as error:
        return Folder(read, findings, error if isinstance(error, Refusal) else _unreadable(), pictures)
    read += [(file._replace(shared=True), content_of(file)) for file in shelf]
    return Folder(read, findings + of_shelf, None, pictures)


def shelf_said(root: Path) -> str | None:
    """What the house file under ``root`` says of its shelf, also where the rest of that file is wrong."""
    content = content_of(EntryFile("house", "house", (root / "house.yml").as_posix()))
    return _said(content) if isinstance(content, bytes) else None


def shelf_in(root: Path) -> Path | None:
    """The folder of `shelf_said`; None where there is none, or none to be had, as the findings say then."""
    said = shelf_said(root)
    with suppress(Refusal):
        return None if said is None else shelf_of(root, said)
    return None


def _said(house: bytes) -> str | None:
    if KEY.encode() not in house and b"\\" not in house:  # a key may be written in backslash codes
        return None
    from bowlbook.entries.validate import private_keys
    from bowlbook.reading.document import read_content

    said = (read_content(house, "", private_keys())[0].data or {}).get(KEY)
    return None if said is None else str(said)


def shelf_of(root: Path, said: str) -> Path:
    """The folder that a book under ``root`` takes products from. ``said`` is as the house file writes it.

    At most two steps up, and never out of the git repository that a folder on the way is the top of; then
    down through folders that are no links, and not into the book itself. Raises `Refusal`.
    """
    from bowlbook.entries.words import read_shared_folder

    at = root
    for step in read_shared_folder(said).split("/"):
        if step == ".." and (at / ".git").exists():
            message = "The way to the shared folder leaves the book's git repository."
            mend = "Keep the shared products in the repository of the book."
            raise Refusal("bad-shared-folder", message, mend)
        at = at / step
        if step != ".." and at.is_symlink():
            message = "A symbolic link stands on the way to the shared folder."
            raise Refusal("bad-shared-folder", message, "Put the folder itself there.")
    if not at.is_dir():
        message = "There is no such folder."
        raise Refusal("bad-shared-folder", message, "Make it, or write the way from the folder of this file.")
    if at.resolve().is_relative_to(root.resolve()):
        message = "This folder is in the book itself; nothing else could share it."
        raise Refusal("bad-shared-folder", message, "Delete the key: a book reads its own products anyway.")
    shown = Path(os.path.normpath(at))
    return shown if shown.is_dir() and shown.samefile(at) else at


def _unreadable() -> Refusal:
    return Refusal("bad-shared-folder", "The folder cannot be read.", "Check that you may read it.")
