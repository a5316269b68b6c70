"""A book as Windows keeps it: line ends of two signs, and paths shown with forward slashes all the same."""

import errno
import os
import sys
from pathlib import Path, PureWindowsPath

import pytest

from bowlbook.book.folder import list_folder
from bowlbook.book.read_book import read_book
from bowlbook.reading import guard
from bowlbook.reading.guard import read_bytes
from bowlbook.reading.refusal import Refusal
from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook


def with_two_signs(book: SmallBook) -> None:
    for path in book.root.rglob("*.yml"):
        path.write_bytes(path.read_bytes().replace(b"\r\n", b"\n").replace(b"\n", b"\r\n"))


def test_line_ends_of_two_signs_change_no_place_and_no_text(book: SmallBook) -> None:
    book.add(BLEND_FILE, "notes: |\n  First line.\n\n  Second line.\n")
    book.edit(CLAY_FILE, "form: clay", "form: clai  # a remark")
    book.add(CLAY_FILE, "colour: white\n")
    expected = read_book(book.root).findings
    assert len(expected) > 1
    with_two_signs(book)
    assert read_book(book.root).findings == expected


def test_a_book_with_line_ends_of_two_signs_is_the_same_book(book: SmallBook) -> None:
    book.add(BLEND_FILE, "notes: |\n  First line.\n\n  Second line.\n")
    with_two_signs(book)
    reading = read_book(book.root)
    assert reading.findings == [] and reading.book is not None
    assert reading.book.blends["soft-clay"].notes == "First line.\n\nSecond line."


@pytest.mark.skipif(sys.platform == "win32", reason="there every test shows it")
def test_paths_are_shown_with_forward_slashes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On Linux the folder has a backslash in its name; its path is one of Windows."""
    monkeypatch.chdir(tmp_path)
    root = PureWindowsPath("group\\recipes")
    (tmp_path / str(root)).mkdir()
    for name in ("other", "stray.txt"):
        (tmp_path / str(root) / name).mkdir()
    found, findings = list_folder(root)  # type: ignore[arg-type]
    assert found == []
    shown = [each.place.path for each in findings]
    assert shown == ["group/recipes/other", "group/recipes/stray.txt", "group/recipes/house.yml"]
    missing = list_folder(PureWindowsPath("group\\none"))[1]  # type: ignore[arg-type]
    assert [each.place.path for each in missing] == ["group/none"]


def test_a_link_is_refused_where_the_system_cannot_refuse_to_open_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Windows has no O_NOFOLLOW."""
    (tmp_path / "real.yml").write_text("name: x\n", encoding="utf-8")
    try:
        (tmp_path / "link.yml").symlink_to("real.yml")
    except OSError as error:
        if sys.platform != "win32":
            raise
        pytest.skip(f"this user may make no links: {os.strerror(error.errno or errno.EPERM)}")
    monkeypatch.setattr(guard, "NO_LINK", 0)
    with pytest.raises(Refusal, match="symbolic link"):
        read_bytes(tmp_path / "link.yml")
    assert read_bytes(tmp_path / "link.yml", links=True) == read_bytes(tmp_path / "real.yml") == b"name: x\n"
