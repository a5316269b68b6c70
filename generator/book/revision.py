"""A book as it stood at a git revision."""

import io
import os
import pickle
import posixpath
import subprocess
import tarfile
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from generator.book.book import Book
from generator.book.kept import Kept, digest, program
from generator.book.read_book import Reading, read_book
from generator.book.shelf_folder import shelf_said
from generator.reading.finding import Finding

LONGEST_WAIT = 60
"""Seconds that git may take for one answer."""


class NoRevision(Exception):
    """The revision cannot be had; the message says why, for the person at the terminal."""


def book_at(recipes: Path, revision: str) -> Book | None:
    """The book of `reading_at`; None where it had no house. Raises `NoRevision` as `recipes_at` does."""
    return reading_at(recipes, revision).book


def reading_at(recipes: Path, revision: str) -> Reading:
    """The book as it was at a revision with all that was found in it, read once for each commit.

    The findings give paths from the top of the repository. Raises `NoRevision` as `recipes_at` does.
    """
    commit, inner, _ = _found(recipes, revision)
    kept = Kept(recipes, "release")
    key = digest(program("reading", "entries", "book"), commit.encode(), inner.encode())
    packed = kept.get(key)
    if packed is None:
        with recipes_at(recipes, revision) as then:
            book, findings = read_book(then, keep=False)
            top = then.joinpath(*[".."] * len(Path(inner).parts))
            reading = Reading(book, [_from(top, finding) for finding in findings])
            packed = pickle.dumps(reading, pickle.HIGHEST_PROTOCOL)
        kept.put(key, packed)
        kept.save()
    found: Reading = pickle.loads(packed)
    return found


def _from(top: Path, finding: Finding) -> Finding:
    """A finding with its path from the top of the repository."""
    path = Path(os.path.relpath(finding.place.path, top)).as_posix()
    return finding._replace(place=finding.place._replace(path=path))


@contextmanager
def recipes_at(recipes: Path, revision: str) -> Iterator[Path]:
    """The recipes' folder as it was at a revision (a commit, branch or tag), in a folder that is thrown away.

    Raises `NoRevision` where there is no git, no repository, no such revision, or no book in it.
    """
    name, inner, repository = _found(recipes, revision)
    with tempfile.TemporaryDirectory(prefix="bowlbook-") as made:
        folder = Path(made)
        (folder / ".git").mkdir()  # the top of a repository then too: no shelf is looked for beyond it
        if not _unpack(repository, name, inner, folder):
            raise NoRevision(f'At "{revision}" there is no book in {recipes}.')
        shelf = shelf_said(folder / inner)
        if shelf is not None:
            way = posixpath.normpath(posixpath.join(inner, shelf))
            if way.split("/")[0] not in ("..", "."):
                _unpack(repository, name, way, folder)
        yield folder / inner


def _found(recipes: Path, revision: str) -> tuple[str, str, Path]:
    """The full name of a revision's commit, where in its repository the recipes are, and the repository."""
    commit = _git(recipes, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    if commit is None:
        raise NoRevision(f'git knows no revision "{revision}" here.')
    prefix = _git(recipes, "rev-parse", "--show-prefix") or b""
    top = _git(recipes, "rev-parse", "--show-cdup") or b""
    inner = prefix.decode().strip().rstrip("/")
    return commit.decode().strip(), inner, recipes / top.decode().strip()


def _unpack(repository: Path, commit: str, inner: str, folder: Path) -> bool:
    """Write a folder of a commit to its place under ``folder``; False where the commit has none."""
    packed = _git(repository, "archive", "--format=tar", f"{commit}:{inner}")
    if packed is None:
        return False
    (folder / inner).mkdir(parents=True, exist_ok=True)
    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        archive.extractall(folder / inner, filter="data")
    return True


def last_release(recipes: Path) -> str | None:
    """The newest tag that the present commit descends from; None without git, repository or tags."""
    try:
        found = _git(recipes, "describe", "--tags", "--abbrev=0")
    except NoRevision:
        return None
    return found.decode().strip() if found else None


def _git(recipes: Path, *arguments: str) -> bytes | None:
    """What git prints; None where it says no. Raises `NoRevision` where it cannot be asked at all."""
    if not recipes.is_dir():
        raise NoRevision(f"There is no folder {recipes}.")
    try:
        done = subprocess.run(
            ["git", "-C", str(recipes), *arguments],
            capture_output=True,
            timeout=LONGEST_WAIT,
            check=False,
        )
    except FileNotFoundError as error:
        raise NoRevision("git is not installed.") from error
    except subprocess.TimeoutExpired as error:
        raise NoRevision("git did not answer.") from error
    if done.returncode and b"not a git repository" in done.stderr:
        raise NoRevision(f"{recipes} is not in a git repository.")
    return None if done.returncode else done.stdout
