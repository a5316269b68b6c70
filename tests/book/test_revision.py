"""A book at a git revision: what its files said then, read once for each commit."""

import io
import os
import subprocess
import tarfile
from pathlib import Path

import pytest

from bowlbook.book import revision
from bowlbook.book.read_book import read_book
from bowlbook.book.revision import NoRevision, NothingThere, book_at, last_release, reading_at
from bowlbook.cache.cache import open_cache
from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook
from commands.git import commit, git
from systems import needs_links


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> SmallBook:
    """The small book in a repository, committed and tagged, with a cache."""
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    made = SmallBook(tmp_path / "house" / "recipes")
    git(tmp_path, "init", "-q", "house")
    commit(made.root, tag="spring")
    return made


def name_at(book: SmallBook, wanted: str) -> str:
    found = book_at(book.root, wanted)
    assert found is not None
    return found.blends["soft-clay"].name


def test_it_is_the_book_of_that_commit(book: SmallBook) -> None:
    first = read_book(book.root).book
    book.edit(BLEND_FILE, "name: Soft", "name: Softer")
    commit(book.root)
    assert book_at(book.root, "spring") == first
    assert name_at(book, "HEAD") == "Softer clay three to one"
    assert name_at(book, "spring") == "Soft clay three to one"


def test_a_python_whose_tarfile_has_no_filter(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    """As that of Debian 12, 3.11.2: filters came with 3.11.4 (PEP 706)."""
    monkeypatch.delattr(tarfile, "FilterError", raising=False)
    monkeypatch.delattr(tarfile.TarFile, "extract")
    assert name_at(book, "spring") == "Soft clay three to one"


def test_a_name_that_leads_out_of_the_folder_is_left_out_and_named(
    book: SmallBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    """git makes no such tree; a repository of somebody else may have one."""
    packed = io.BytesIO()
    with tarfile.open(fileobj=packed, mode="w") as archive:
        archive.addfile(tarfile.TarInfo("../../out.yml"))
    real = revision._git
    answers = {"archive": packed.getvalue()}
    monkeypatch.setattr(revision, "_git", lambda at, *words: answers.get(words[0]) or real(at, *words))
    warned: list[str] = []
    with revision.recipes_at(book.root, "spring", warned.append) as then:
        assert not (then / "../../out.yml").resolve().exists()
    assert warned == ["recipes/../../out.yml was left out: its name leads out of the folder."]


def test_it_is_read_once(book: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    with open_cache(book.root) as cache:
        first = book_at(book.root, "spring", cache=cache)
    monkeypatch.setattr(revision, "read_book", None)  # would raise if it were called
    with open_cache(book.root) as cache:
        assert book_at(book.root, "spring", cache=cache) == book_at(book.root, "HEAD", cache=cache) == first


def test_a_tag_that_is_moved_is_another_commit(book: SmallBook) -> None:
    assert name_at(book, "spring") == "Soft clay three to one"
    book.edit(BLEND_FILE, "name: Soft", "name: Softer")
    commit(book.root)
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


def linked(book: SmallBook, name: str, target: str) -> None:
    """Commit a symbolic link among the blends (mode 120000), tag it, and take it away again."""
    link = book.root / "blends" / name
    link.symlink_to(target)
    commit(book.root, tag="linked")
    link.unlink()
    commit(book.root)


@needs_links
@pytest.mark.parametrize("target", ["/etc/hostname", "../../../../outside", "soft-clay.yml", "nowhere", "."])
def test_a_link_is_left_out_and_named(book: SmallBook, target: str) -> None:
    """Also from the cache, the second time."""
    linked(book, "evil.yml", target)
    for _ in range(2):
        warnings: list[str] = []
        found = book_at(book.root, "linked", warnings.append)
        assert found is not None and list(found.blends) == ["soft-clay"]
        (text,) = warnings
        assert text.startswith("recipes/blends/evil.yml was left out: it is a link")


def test_a_submodule_is_left_out_and_named(book: SmallBook) -> None:
    """Mode 160000, as the manual of git-fast-import lists it."""
    head = subprocess.check_output(["git", "-C", str(book.root), "rev-parse", "HEAD"], text=True).strip()
    git(book.root, "update-index", "--add", "--cacheinfo", f"160000,{head},recipes/blends/other")
    git(book.root, "commit", "-qm", "A submodule")
    warnings: list[str] = []
    assert book_at(book.root, "HEAD", warnings.append) is not None
    assert [text.partition(",")[0] for text in warnings] == [
        "recipes/blends/other was left out: it is a repository of its own (a submodule)"
    ]


def test_a_folder_in_the_place_of_a_file(book: SmallBook) -> None:
    house = book.root / "house.yml"
    text = house.read_bytes()
    house.unlink()
    house.mkdir()
    (house / "inner.yml").write_bytes(text)
    commit(book.root)
    assert book_at(book.root, "HEAD") is None


def test_a_file_in_the_place_of_the_folder(book: SmallBook) -> None:
    book.root.rename(book.root.with_name("kept"))
    book.root.write_text("no folder", encoding="utf-8")
    commit(book.root.parent)
    book.root.unlink()
    book.root.with_name("kept").rename(book.root)
    with pytest.raises(NothingThere, match="no book"):
        book_at(book.root, "HEAD")


@pytest.mark.parametrize("language", ["C", "de_DE.UTF-8"])
def test_no_repository(tmp_path: Path, language: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Git's own words are looked for, which it translates where it may."""
    monkeypatch.setenv("LC_ALL", language)
    monkeypatch.setenv("LANGUAGE", language)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))
    made = SmallBook(tmp_path / "recipes")
    with pytest.raises(NothingThere, match="is not in a git repository"):
        book_at(made.root, "HEAD")
    assert last_release(made.root) is None


def test_a_repository_without_a_commit_or_a_tag(tmp_path: Path) -> None:
    made = SmallBook(tmp_path / "house" / "recipes")
    git(tmp_path, "init", "-q", "house")
    assert last_release(made.root) is None
    commit(made.root)
    assert last_release(made.root) is None


def test_a_repository_of_another_user(book: SmallBook, monkeypatch: pytest.MonkeyPatch) -> None:
    """Git refuses it; the variable is the one that git's own tests of safe.directory use (t0033)."""
    monkeypatch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    for ask in (lambda: book_at(book.root, "HEAD"), lambda: last_release(book.root)):
        with pytest.raises(NoRevision, match="belongs to another user") as caught:
            ask()
        assert not isinstance(caught.value, NothingThere)


def test_a_repository_that_is_damaged(book: SmallBook) -> None:
    """Git's own reason is passed on, and it is not called a missing revision."""
    (book.root.parent / ".git" / "config").write_text("[core\n", encoding="utf-8")
    with pytest.raises(NoRevision, match=r"git failed: .*config") as caught:
        book_at(book.root, "HEAD")
    assert not isinstance(caught.value, NothingThere)


def test_what_could_not_be_read_is_kept_with_paths_of_the_repository(book: SmallBook) -> None:
    """Read, then from the cache: the same book without the file and what uses it, and the same finding."""
    book.edit(CLAY_FILE, "450 g", "450 gr")
    commit(book.root)
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
