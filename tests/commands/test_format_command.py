"""``bowlbook format``: writes what differs, names it with --check, and never loses anything."""

import errno
import os
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.site.small_site import bytes_of

from bowlbook.book.read_book import read_book
from commands.run import run
from systems import needs_modes


@pytest.fixture
def house(recipes: Path, tmp_path: Path) -> Path:
    """The demo book's products alone."""
    others = shutil.ignore_patterns("blends", "techniques", "situations", "classes", "troubles")
    book = shutil.copytree(recipes, tmp_path / "recipes", ignore=others)
    (book / "blends").mkdir()
    return book


@pytest.mark.long
def test_formats_the_demo_book_once_and_it_stays_the_same_book(recipes: Path, tmp_path: Path) -> None:
    house = shutil.copytree(recipes, tmp_path / "recipes")
    before = read_book(house).book
    assert run("format", recipes=house).exit_code == 0
    after = read_book(house).book
    assert before is not None and after is not None
    for name in ("products", "blends", "techniques", "situations", "classes"):
        assert dict(getattr(before, name).items()) == dict(getattr(after, name).items())
    assert before.house == after.house
    neat = bytes_of(house)
    again = run("format", recipes=house)
    assert again.exit_code == 0 and again.stdout == "" and "0 of" in again.stderr
    assert run("format", "--check", recipes=house).exit_code == 0
    assert bytes_of(house) == neat


def test_the_demo_book_is_formatted(recipes: Path) -> None:
    shown = run("format", "--check", recipes=recipes)
    assert (shown.exit_code, shown.stdout) == (0, "")


def test_check_names_what_would_change_and_writes_nothing(house: Path) -> None:
    run("format", recipes=house)
    path = house / "blends" / "soft.yml"
    path.write_text("suits: {tone: cool}\nname: Soft\n", encoding="utf-8")
    before = bytes_of(house)
    result = run("format", "--check", recipes=house)
    assert result.exit_code == 1
    assert result.stdout == f"Would format {path}.\n"
    assert bytes_of(house) == before


def test_line_ends_and_the_mark_of_another_editor_go(house: Path) -> None:
    run("format", recipes=house)
    path = house / "products" / "gloves.yml"
    neat = path.read_bytes()
    path.write_bytes(b"\xef\xbb\xbf" + neat.replace(b"\n", b"\r\n"))
    assert run("format", recipes=house).exit_code == 0
    assert path.read_bytes() == neat


def test_an_entry_that_cannot_be_read_is_left_and_named_and_the_others_are_formatted(house: Path) -> None:
    wrong, messy = house / "blends" / "wrong.yml", house / "blends" / "messy.yml"
    wrong.write_text("name: [\n", encoding="utf-8")
    messy.write_text("suits:   {tone: cool}\nname: Soft\n", encoding="utf-8")
    result = run("format", recipes=house)
    assert result.exit_code == 1 and f"{wrong}:" in result.stderr and "not-yaml" in result.stderr
    assert wrong.read_text(encoding="utf-8") == "name: [\n"
    assert messy.read_text(encoding="utf-8") == "name: Soft\nsuits: {tone: cool}\n"


@needs_modes
def test_a_read_only_file_stays_and_modes_are_kept(house: Path) -> None:
    one, other = house / "blends" / "one.yml", house / "blends" / "other.yml"
    for path, mode in ((one, 0o444), (other, 0o640)):
        path.write_text("suits:   {tone: cool}\nname: Soft\n", encoding="utf-8")
        path.chmod(mode)
    result = run("format", recipes=house)
    if os.geteuid() != 0:  # who may write everything is refused nothing
        assert result.exit_code == 1 and "one.yml" in result.stderr and "read-only" in result.stderr
        assert one.read_text(encoding="utf-8").startswith("suits")
    assert other.stat().st_mode & 0o777 == 0o640
    assert not list(house.rglob(".*"))


def test_not_while_prices_are_half_written(house: Path) -> None:
    (house / ".bowlbook-prices").mkdir()
    before = bytes_of(house)
    result = run("format", recipes=house)
    assert result.exit_code == 1 and "bad-price-list" in result.stderr
    assert bytes_of(house) == before


def test_no_book(tmp_path: Path) -> None:
    result = run("format", recipes=tmp_path / "nothing")
    assert result.exit_code == 1 and "no-book" in result.stderr


def test_a_book_that_cannot_be_listed_is_not_formatted(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The answer is given as the system would: who may read everything, as in a container, meets none."""

    def scandir(path: Path, inner: Callable[[Path], Any] = os.scandir) -> Any:
        if path.name == "blends":
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
        return inner(path)

    monkeypatch.setattr(os, "scandir", scandir)
    result = run("format", "--check", recipes=house)
    assert result.exit_code == 1 and "This folder cannot be read: permission denied." in result.stderr


def test_a_folder_without_entries_is_not_formatted(tmp_path: Path) -> None:
    result = run("format", recipes=tmp_path)
    assert result.exit_code == 1 and "no-house" in result.stderr
