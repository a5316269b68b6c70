"""A book as it stood at a git revision."""

import io
import os
import posixpath
import subprocess
import tempfile
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from itertools import pairwise
from pathlib import Path

from bowlbook.book.book import Book
from bowlbook.book.folder import PICTURES
from bowlbook.book.read_book import ReadResult, read_book
from bowlbook.book.shelf_folder import shelf_said
from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.reading.finding import Finding

LONGEST_WAIT = 60
"""Seconds that git may take for one answer."""


NOT_FILES = {b"120000": "a link", b"160000": "a repository of its own (a submodule)"}
"""Modes of a git tree that are no files."""
NO_PICTURES = (".", f":(exclude){PICTURES}")
"""What is unpacked of a revision: a book is compared by its words and figures."""
Warn = Callable[[str], object]
"""Receives a warning: one sentence, without the name of the revision."""


class NoRevision(Exception):
    """The revision cannot be read; the message says why, for the person at the terminal."""


class NothingThere(NoRevision):
    """There is nothing to compare with: no git, no repository, no such revision, or no book in it."""


def book_at(recipes: Path, revision: str, warn: Warn = bool, cache: Cache | None = None) -> Book | None:
    """The book of `reading_at`; None where it had no house. ``warn`` and the exceptions: as there."""
    return reading_at(recipes, revision, warn, cache).book


def reading_at(recipes: Path, revision: str, warn: Warn = bool, cache: Cache | None = None) -> ReadResult:
    """The book as it was at a revision with all that was found in it, read once for each commit.

    The findings give paths from the top of the repository. ``warn`` and the exceptions: as for `recipes_at`.
    """
    commit = commit_of(recipes, revision)
    inner, _ = _place(recipes)

    def read() -> tuple[ReadResult, list[str]]:
        skipped: list[str] = []
        with recipes_at(recipes, revision, skipped.append) as then:
            reading = read_book(then)
            top = then.joinpath(*[".."] * len(Path(inner).parts))
            findings = [_from(top, finding) for finding in reading.findings]
            return reading._replace(findings=findings, unfinished=None), skipped

    given = digest_of(commit, inner)
    reading, warnings = (cache or Cache()).get_or_make("revision", commit, given, read)
    for text in warnings:
        warn(text)
    return reading


def _from(top: Path, finding: Finding) -> Finding:
    """A finding with its path from the top of the repository."""
    path = Path(os.path.relpath(finding.place.path, top)).as_posix()
    return finding._replace(place=finding.place._replace(path=path))


@contextmanager
def recipes_at(recipes: Path, revision: str, warn: Warn = bool) -> Iterator[Path]:
    """The recipes' folder as it was at a revision (a commit, branch or tag), in a temporary folder.

    ``warn`` receives a sentence for each file of the revision that is left out: a book is read from its own
    ordinary files, so links are not followed. Raises `NothingThere` where there is no git, no repository, no
    such revision or no book in it, and `NoRevision` with git's reason where git fails.
    """
    commit = commit_of(recipes, revision)
    inner, repository = _place(recipes)
    with tempfile.TemporaryDirectory(prefix="bowlbook-") as made:
        folder = Path(made)
        (folder / ".git").mkdir()  # the top of a repository then too: no shelf is looked for beyond it
        if not _unpack(repository, commit, inner, folder, warn):
            raise NothingThere(f'At "{revision}" there is no book in {recipes}.')
        shelf = shelf_said(folder / inner)
        if shelf is not None:
            way = posixpath.normpath(posixpath.join(inner, shelf))
            if way.split("/")[0] not in ("..", "."):
                _unpack(repository, commit, way, folder, warn)
        yield folder / inner


def commit_of(recipes: Path, revision: str) -> str:
    """The full name of a revision's commit. Raises `NoRevision`."""
    commit = _git(recipes, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    if commit is None:
        raise NothingThere(f'git knows no revision "{revision}" here.')
    return commit.decode().strip()


def _place(recipes: Path) -> tuple[str, Path]:
    """Where in its repository the recipes are, and the repository."""
    lines = os.fsdecode(_git(recipes, "rev-parse", "--show-prefix", "--show-cdup") or b"")
    prefix, _, top = lines.removesuffix("\n").rpartition("\n")
    return prefix.rstrip("/"), recipes / top


def _unpack(repository: Path, commit: str, inner: str, folder: Path, warn: Warn) -> bool:
    """Write a folder of a commit to its place under ``folder``; False where the commit has none."""
    tree = f"{commit}:{inner}"
    listed = _git(repository, "ls-tree", "-r", "-z", tree)
    packed = None if listed is None else _git(repository, "archive", "--format=tar", tree, "--", *NO_PICTURES)
    if listed is None or packed is None:
        return False
    for line in listed.split(b"\0")[:-1]:
        mode, _, rest = line.partition(b" ")
        if mode in NOT_FILES:
            shown = _printable(posixpath.join(inner, os.fsdecode(rest.partition(b"\t")[2])))
            warn(
                f"{shown} was left out: it is {NOT_FILES[mode]}, and a book is read from its own files only."
            )
    (folder / inner).mkdir(parents=True, exist_ok=True)
    import tarfile  # it loads every way of packing

    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        for member in archive:
            content = archive.extractfile(member) if member.isfile() else None
            if content is None:
                continue
            try:
                _write(folder / inner, member.name, content.read())
            except OSError as error:
                reason = (error.strerror or str(error)).lower()
                warn(f"{_printable(posixpath.join(inner, member.name))} was left out: {reason}.")
    return True


def _write(folder: Path, name: str, content: bytes) -> None:
    """Write a file under a folder. Raises `OSError`, also for a name that leads out of it.

    Only Python from 3.11.4 on has tarfile's own filter for this.
    """
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise OSError("its name leads out of the folder")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


def last_release(recipes: Path) -> str | None:
    """The newest tag that the present commit descends from; None without git, repository or tags.

    Raises `NoRevision` where there is a repository that git does not read.
    """
    try:
        found = _git(recipes, "describe", "--tags", "--abbrev=0")
    except NothingThere:
        return None
    return found.decode().strip() if found else None


def changed_since(recipes: Path, commit: str) -> dict[str, bytes]:
    """The files below a folder that differ from a commit or are gone, as they were there.

    By their paths from the folder. Raises `NoRevision`.
    """
    only = ("--name-only", "--no-renames", "--no-ext-diff", "--relative", "--diff-filter=MD", "-z")
    listed = _git(recipes, "diff", *only, commit, "--", ".") or b""
    names = [os.fsdecode(each) for each in listed.split(b"\0") if each and b"\n" not in each]
    asked = "".join(f"{commit}:./{name}\n" for name in names)
    answered = io.BytesIO(_git(recipes, "cat-file", "--batch", given=os.fsencode(asked)) or b"")
    return dict(_blobs(answered, names))


def versions_until(recipes: Path, commit: str, folder: str) -> list[tuple[str, bytes]]:
    """Every version of every file below a folder of the recipes in the history of a commit, newest first.

    By path from the recipes. Raises `NoRevision`.
    """
    only = ("--raw", "--no-abbrev", "--no-renames", "--relative", "--diff-filter=AM", "--format=", "-z")
    listed = (_git(recipes, "log", *only, commit, "--", folder) or b"").split(b"\0")
    asked: dict[tuple[str, bytes], None] = {}
    for said, path in pairwise(listed):
        if said.lstrip(b"\n").startswith(b":"):
            asked[os.fsdecode(path), said.split()[3]] = None
    blobs = b"".join(blob + b"\n" for _, blob in asked)
    answered = io.BytesIO(_git(recipes, "cat-file", "--batch", given=blobs) or b"")
    return list(_blobs(answered, [name for name, _ in asked]))


def _blobs(answered: io.BytesIO, names: Iterable[str]) -> Iterator[tuple[str, bytes]]:
    """The contents that ``git cat-file --batch`` has answered with, by the names of what was asked for."""
    for name in names:
        head = answered.readline().split()
        if len(head) == 3 and head[1] == b"blob":
            yield name, answered.read(int(head[2]) + 1)[:-1]


ENGLISH = {"LC_ALL": "C", "LANGUAGE": "C"}
"""Environment in which git's messages are the ones that are looked for below."""
ANSWERS_NO = (
    b"No names found",  # describe: no tag
    b"No tags can describe",
    b"Not a valid object name",  # describe without a commit; ls-tree of a folder that is not there
    b"not a tree object",  # ls-tree of a file
)
"""What git writes where a question has the answer no."""


def _git(recipes: Path, *arguments: str, given: bytes = b"") -> bytes | None:
    """What git prints, ``given`` on its standard input; None where its answer is no: no such revision or tag.

    Raises `NothingThere` where there is no git, no folder or no repository, `NoRevision` where git fails.
    """
    if not recipes.is_dir():
        raise NothingThere(f"There is no folder {recipes}.")
    try:
        done = subprocess.run(
            ["git", "-C", str(recipes), *arguments],
            env={**os.environ, **ENGLISH},
            input=given,
            capture_output=True,
            timeout=LONGEST_WAIT,
            check=False,
        )
    except FileNotFoundError as error:
        raise NothingThere("git is not installed.") from error
    except OSError as error:
        raise NoRevision(f"git cannot be run: {error.strerror}.") from error
    except subprocess.TimeoutExpired as error:
        raise NoRevision("git did not answer.") from error
    if done.returncode == 0:
        return done.stdout
    if done.returncode == 1 or any(text in done.stderr for text in ANSWERS_NO):
        return None
    if b"not a git repository" in done.stderr:
        raise NothingThere(f"{recipes} is not in a git repository.")
    if b"dubious ownership" in done.stderr:
        raise NoRevision(
            f"The git repository of {recipes} belongs to another user, and git does not read it. "
            "If you trust it, allow it once: git config --global --add safe.directory "
            "with the repository's full path."
        )
    said = done.stderr.decode("utf-8", "replace").strip().split("\n")[0].removeprefix("fatal: ")
    raise NoRevision(f"git failed: {_printable(said or f'exit code {done.returncode}')}.")


def _printable(text: str) -> str:
    return "".join(sign if sign.isprintable() else "?" for sign in text)
