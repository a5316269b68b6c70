"""A book at a git revision: what its files said then, read once for each commit."""

import os
import subprocess
from pathlib import Path

import pytest
from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook

from generator.book import revision
from generator.book.read_book import read_book
from generator.book.revision import NoRevision, book_at, reading_at

IDENTITY = {"GIT_AUTHOR_NAME": "A", "GIT_AUTHOR_EMAIL": "a@example.org", "GIT_CONFIG_GLOBAL": os.devnull}
IDENTITY |= {"GIT_COMMITTER_NAME": "A", "GIT_COMMITTER_EMAIL": "a@example.org"}


def git(folder: Path, *words: str) -> None:
    command = ["git", "-C", str(folder), *words]
    subprocess.run(command, check=True, capture_output=True, env={**os.environ, **IDENTITY})


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> SmallBook:
    """The small book in a repository, committed and tagged, with a cache."""
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    made = SmallBook(tmp_path / "house" / "recipes")
    git(tmp_path, "init", "-q", "house")
    commit(made)
    git(made.root, "tag", "spring")
    return made


def commit(book: SmallBook) -> None:
    git(book.root, "add", ".")
    git(book.root, "commit", "-qm", "A change")


def name_at(book: SmallBook, wanted: str) -> str:
    found = book_at(book.root, wanted)
    assert found is not None
    return found.blends["soft-clay"].name


def test_it_is_the_book_of_that_commit(book: SmallBook) -> None:
    first = read_book(book.root, keep=False).book
    book.edit(BLEND_FILE, "name: Soft", "name: Softer")
    commit(book)
    assert book_at(book.root, "spring") == first
    assert name_at(book, "HEAD") == "Softer clay three to one"
    assert name_at(book, "spring") == "Soft clay three to one"


def test_it_is_read_once(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    first = book_at(book.root, "spring")
    monkeypatch.setattr(revision, "read_book", None)  # would raise if it were called
    assert book_at(book.root, "spring") == book_at(book.root, "HEAD") == first


def test_a_tag_that_is_moved_is_another_commit(book: SmallBook) -> None:
    assert name_at(book, "spring") == "Soft clay three to one"
    book.edit(BLEND_FILE, "name: Soft", "name: Softer")
    commit(book)
    git(book.root, "tag", "-f", "spring")
    assert name_at(book, "spring") == "Softer clay three to one"


def test_a_folder_that_moved_within_its_repository(book: SmallBook) -> None:
    assert name_at(book, "spring") == "Soft clay three to one"
    book.root.rename(book.root.with_name("book"))
    book.root = book.root.with_name("book")
    with pytest.raises(NoRevision):
        book_at(book.root, "spring")


def test_no_such_revision(book: SmallBook) -> None:
    with pytest.raises(NoRevision, match="winter"):
        book_at(book.root, "winter")


def test_what_could_not_be_read_is_kept_with_paths_of_the_repository(book: SmallBook) -> None:
    """Read, then from the cache: the same book without the file and what uses it, and the same finding."""
    book.edit(CLAY_FILE, "450 g", "450 gr")
    commit(book)
    book.edit(CLAY_FILE, "450 gr", "450 g")
    first, second = reading_at(book.root, "HEAD"), reading_at(book.root, "HEAD")
    assert first == second
    [finding] = first.findings
    assert (str(finding.place), finding.code) == (f"recipes/{CLAY_FILE}:9:13", "wrong-unit")
    assert first.book is not None
    assert first.book.unread == {
        ("product", "clay"),
        ("blend", "soft-clay"),
        ("technique", "painting"),
        ("situation", "fine-hair"),
        ("class", "first-painting"),
    }
