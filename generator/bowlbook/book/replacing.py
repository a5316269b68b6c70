"""Several files of a book replaced or created together: all or none, also where the program is killed.

Old and new contents are first written to a hidden folder in the book's. Renaming that folder to `JOURNAL` is
the decision: from then on the change is completed, or taken back where it cannot be, by this run or by the
next call of `finish`. As long as the journal is there, reading the book gives an error.
"""

import hashlib
import json
import os
import re
import secrets
import shutil
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Literal, NamedTuple

from bowlbook.book.folder import FOLDERS, JOURNAL
from bowlbook.book.shelf_folder import shelf_in
from bowlbook.entries.entry_id import ID

LIST = "files.json"
OWN_FOLDER = re.compile(rf"{re.escape(JOURNAL)}-[a-z0-9_]{{8}}")
OWN_FILE = re.compile(rf"[0-9]+\.(old|new)|{re.escape(LIST)}")
Side = Literal["old", "new"]


class NotReplaced(Exception):
    """The files were not replaced. The message says why, and whether any of them is changed."""


class _File(NamedTuple):
    """A file to write, and the digests (SHA-256) of its old and new content; no old one for a new file."""

    path: Path
    old: str | None
    new: str


def create_all(root: Path, contents: Mapping[Path, bytes]) -> None:
    """Create entry files of the book in ``root``, all or none; never over a file that is there.

    Raises `NotReplaced` as `replace_all` does.
    """
    for folder in {path.parent for path in contents}:
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise _nothing(f"{folder} cannot be made: {error.strerror or error}.") from error
    replace_all(root, {path: (None, new) for path, new in contents.items()})


def replace_all(root: Path, contents: Mapping[Path, tuple[bytes | None, bytes]]) -> None:
    """Replace files of the book in ``root``. ``contents``: old and new content of each; no old: a new file.

    Raises `NotReplaced`, and then every file is as it was, where a file is read-only or no longer the old
    one, or where something cannot be written, for instance on a full disk.
    """
    for path, (old, _) in contents.items():
        if old is not None:
            _may_replace(path, old)
        elif os.path.lexists(path):
            raise _nothing(f"{path} is there already.")
    try:
        files = _stage(root, contents)
    except OSError as error:
        raise _nothing(f"{error.strerror or error}.") from error
    try:
        _sync(root)
        left = _put(root, files, "new")
        why = f"{left[0]} was changed meanwhile." if left else None
    except OSError as error:
        why = f"{error.strerror or error}."
    if why is not None:
        _take_back(root, files, why)
        raise _nothing(why)
    _remove_journal(root)


def finish(root: Path) -> list[Path] | None:
    """Complete or take back what a killed run had begun, and remove what it left behind.

    None where there was nothing to finish, else the files that somebody has changed since; they are left as
    they are. Raises `NotReplaced` where it cannot be finished, or the journal is none of `replace_all`.
    """
    _clear_up(root)
    if not os.path.lexists(root / JOURNAL):
        return None
    files = _read_journal(root)
    # A run that was killed while it took files back has used up some of the new contents.
    complete = all(
        _digest(each.path) != each.old or (root / JOURNAL / f"{place}.new").exists()
        for place, each in enumerate(files)
    )
    try:
        left = _put(root, files, "new" if complete else "old")
    except OSError as error:
        raise _half_done(f"{error.strerror or error}.") from error
    _remove_journal(root)
    return left


def _may_replace(path: Path, old: bytes) -> None:
    try:
        mode, content = path.stat().st_mode, path.read_bytes()
    except OSError as error:
        raise _nothing(f"{path} cannot be read: {error.strerror or error}.") from error
    if not mode & 0o222 or not os.access(path, os.W_OK):
        raise _nothing(f"{path} is read-only.")
    if content != old:
        raise _nothing(f"{path} was changed meanwhile.")


def _stage(root: Path, contents: Mapping[Path, tuple[bytes | None, bytes]]) -> list[_File]:
    """Write all that completing or taking back needs, and make it the journal in one step."""
    stage = Path(tempfile.mkdtemp(prefix=f"{JOURNAL}-", dir=root))
    try:
        files = []
        for place, (path, (old, new)) in enumerate(contents.items()):
            for side, content in (("old", old), ("new", new)):
                if content is not None:
                    staged = stage / f"{place}.{side}"
                    _write(staged, content)
                    if old is not None:
                        staged.chmod(path.stat().st_mode & 0o777)
            files.append(_File(path, None if old is None else _digest_of(old), _digest_of(new)))
        rows = [[Path(os.path.relpath(path, root)).as_posix(), old, new] for path, old, new in files]
        _write(stage / LIST, json.dumps(rows).encode())
        _sync(stage)
        if os.path.lexists(root / JOURNAL):
            raise _nothing("Another price list or table is being taken over.")
        stage.rename(root / JOURNAL)
    except BaseException:
        shutil.rmtree(stage, ignore_errors=True)
        raise
    return files


def _put(root: Path, files: list[_File], side: Side) -> list[Path]:
    """Give each file its new, or its old, content. Files that have neither are left alone and returned.

    May run in two processes at once, or again after a kill: a file that has its content already is done.
    """
    left = []
    for place, each in enumerate(files):
        wanted, other = (each.new, each.old) if side == "new" else (each.old, each.new)
        found = _digest(each.path)
        if found == other:
            try:
                _give(root / JOURNAL / f"{place}.{side}", each.path, wanted, other)
            except FileNotFoundError:
                if _digest(each.path) != wanted:
                    raise
            if _digest(each.path) != wanted:
                left.append(each.path)
        elif found != wanted:
            left.append(each.path)
    for folder in {each.path.parent for each in files}:
        _sync(folder)
    return left


def _give(staged: Path, path: Path, wanted: str | None, other: str | None) -> None:
    """Put a staged content in a file's place: in one step, and never over a file that was not expected."""
    if wanted is None:
        path.unlink()
    elif other is not None:
        staged.replace(path)
    else:
        try:
            os.link(staged, path)  # a rename would go over a file that somebody has just made
        except FileExistsError:
            return
        except OSError:  # a disk without hard links
            if not os.path.lexists(path):
                staged.replace(path)
            return
        staged.unlink()


def _take_back(root: Path, files: list[_File], why: str) -> None:
    try:
        _put(root, files, "old")
    except OSError as error:
        raise _half_done(why) from error
    _remove_journal(root)


def _nothing(why: str) -> NotReplaced:
    return NotReplaced(f"Nothing was taken over. {why}")


def _half_done(why: str) -> NotReplaced:
    return NotReplaced(f"Some files may be written and others not. {why} Run the command again, to finish.")


def _read_journal(root: Path) -> list[_File]:
    """The files of the journal. A journal may come from a stranger: it names product files, and no others."""
    journal = root / JOURNAL
    try:
        if journal.is_symlink():
            raise ValueError(journal)
        rows = json.loads((journal / LIST).read_bytes())
        files = [_File(Path(os.path.normpath(root / path)), old, new) for path, old, new in rows]
        for place, each in enumerate(files):
            _is_entry_file(root, each)
            for side, digest in (("old", each.old), ("new", each.new)):
                staged = journal / f"{place}.{side}"
                if staged.is_symlink() or _digest(staged) not in (digest, None):
                    raise ValueError(staged)
    except (OSError, ValueError, TypeError) as error:
        message = f"{journal} is no journal of bowlbook: look at what is in it, and remove it."
        raise NotReplaced(message) from error
    return files


def _is_entry_file(root: Path, file: _File) -> None:
    """Raises ValueError for what is neither a product of the book or its shelf nor a new entry."""
    path = file.path
    own = FOLDERS if file.old is None else ("products",)
    folders = [*(root / each for each in own), *([] if file.old is None else [shelf_in(root)])]
    if (
        path.is_symlink()
        or path.suffix != ".yml"
        or not ID.fullmatch(path.stem)
        or not any(
            each is not None and each.is_dir() and not each.is_symlink() and path.parent.samefile(each)
            for each in folders
        )
    ):
        raise ValueError(path)


def _clear_up(root: Path) -> None:
    """Remove what killed runs staged and never decided on, as far as it is certainly theirs."""
    with suppress(OSError):
        for folder in root.iterdir():
            if not OWN_FOLDER.fullmatch(folder.name) or folder.is_symlink() or not folder.is_dir():
                continue
            if all(OWN_FILE.fullmatch(each.name) for each in folder.iterdir()):
                shutil.rmtree(folder, ignore_errors=True)


def _remove_journal(root: Path) -> None:
    """Renamed first, so that a kill leaves a whole journal or none."""
    aside = root / f"{JOURNAL}-{secrets.token_hex(4)}"
    with suppress(OSError):
        (root / JOURNAL).rename(aside)
        shutil.rmtree(aside, ignore_errors=True)


def _write(path: Path, content: bytes) -> None:
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _sync(folder: Path) -> None:
    """Make what was renamed in a folder last through a power failure, where the system can."""
    if os.name == "posix":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _digest_of(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _digest(path: Path) -> str | None:
    """The digest of a file's content; None where there is no such file."""
    try:
        return _digest_of(path.read_bytes())
    except FileNotFoundError:
        return None
