"""Publishing: the new site stands in the old one's place, or the old one stays byte for byte."""

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from small_site import PAGE, bytes_of, search_data, small_site

from bowlbook.site import publish as room
from bowlbook.site.publish import NotPublished, publish, swap
from systems import needs_links, needs_modes

Build = Callable[[Path], None]


def test_the_first_site(tmp_path: Path) -> None:
    site = tmp_path / "a" / "b" / "site"
    files = len(publish(small_site(), site).record.files)
    assert files == len(bytes_of(site)) == 7
    assert b"first" in (site / "index.html").read_bytes()
    assert [path.name for path in site.parent.iterdir()] == ["site"]


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    publish(small_site(), tmp_path / "site")
    assert (tmp_path / "site/index.html").is_file()


def test_the_next_site_takes_its_place_whole(house: Path) -> None:
    site = house / "site"
    publish(small_site("second", more={"new/index.html": PAGE.format(title="N", up="../", body="")}), site)
    assert (site / "new/index.html").is_file()
    publish(small_site("third"), site)
    assert not (site / "new").exists()
    assert b"third" in (site / "index.html").read_bytes()
    assert [path.name for path in house.iterdir()] == ["site"]


@needs_modes
def test_the_site_can_be_read_by_a_web_server(tmp_path: Path) -> None:
    mask = os.umask(0o022)
    try:
        publish(small_site(), tmp_path / "site")
    finally:
        os.umask(mask)
    assert (tmp_path / "site").stat().st_mode & 0o777 == 0o755


def raising(error: BaseException) -> Build:
    """A build that stops half-way."""

    def build(folder: Path) -> None:
        (folder / "index.html").write_text("half", encoding="utf-8")
        (folder / "soft").mkdir()
        raise error

    return build


def nothing(folder: Path) -> None:
    """A build that writes no file."""


def broken(folder: Path) -> None:
    """A build whose one fault is found when it is looked over; ``test_verify`` has the others."""
    small_site("broken", more={"404.html": "<article></article>", **search_data("gone/")})(folder)


@pytest.mark.parametrize("faulty", [broken, nothing])
def test_a_faulty_site_is_not_published(house: Path, faulty: Build) -> None:
    before = bytes_of(house)
    with pytest.raises(NotPublished, match=r"The new site has \d+ faults?; the old one stays"):
        publish(faulty, house / "site")
    assert bytes_of(house) == before
    assert [path.name for path in house.iterdir()] == ["site"]


@pytest.mark.parametrize(
    "error", [ValueError("a page"), OSError(errno.ENOSPC, "full"), KeyboardInterrupt(), SystemExit(1)]
)
def test_a_build_that_stops_half_way(house: Path, error: BaseException) -> None:
    before = bytes_of(house)
    with pytest.raises(type(error)):
        publish(raising(error), house / "site")
    assert bytes_of(house) == before
    assert [path.name for path in house.iterdir()] == ["site"]


def test_without_an_earlier_site_a_failed_build_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="a page"):
        publish(raising(ValueError("a page")), tmp_path / "site")
    with pytest.raises(NotPublished):
        publish(broken, tmp_path / "site")
    assert list(tmp_path.iterdir()) == []


def test_foreign_files_are_refused_before_anything_is_built(house: Path) -> None:
    (house / "site/notes.txt").write_text("mine", encoding="utf-8")
    before = bytes_of(house)

    def never(folder: Path) -> None:
        pytest.fail("it was built")

    with pytest.raises(NotPublished, match=r"did not make \(notes\.txt\)"):
        publish(never, house / "site")
    assert bytes_of(house) == before


def test_a_folder_of_somebody_else_is_refused(tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos/index.html").write_text("mine", encoding="utf-8")
    with pytest.raises(NotPublished, match=r"index\.html"):
        publish(small_site(), tmp_path / "photos")
    assert bytes_of(tmp_path) == {"photos/index.html": b"mine"}


@pytest.mark.parametrize("kind", ["file", "link"])
@needs_links
def test_a_file_or_link_in_its_place_is_refused(tmp_path: Path, kind: str) -> None:
    site = tmp_path / "site"
    if kind == "file":
        site.write_text("mine", encoding="utf-8")
    else:
        (tmp_path / "real").mkdir()
        site.symlink_to("real")
    with pytest.raises(NotPublished):
        publish(small_site(), site)
    assert site.is_symlink() == (kind == "link")
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(
        {"site", "real"} if kind == "link" else {"site"}
    )


def two(tmp_path: Path) -> tuple[Path, Path]:
    """A new folder and an old one, a file in each."""
    new, old = tmp_path / ".new", tmp_path / "site"
    for folder in (new, old):
        folder.mkdir()
        (folder / "which").write_text(folder.name, encoding="utf-8")
    return new, old


def refuse(one: Path, other: Path) -> bool:
    """A file system that cannot exchange two names."""
    return False


@pytest.mark.parametrize("exchange", [True, False])
def test_swap_exchanges_two_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, exchange: bool) -> None:
    if not exchange:
        monkeypatch.setattr(room, "_exchange", refuse)
    new, site = two(tmp_path)
    swap(new, site)
    assert bytes_of(tmp_path) == {".new/which": b"site", "site/which": b".new"}


def test_the_exchange_is_one_step_where_the_system_has_it(tmp_path: Path) -> None:
    new, site = two(tmp_path)
    before = new.stat().st_ino, site.stat().st_ino
    if not room._exchange(new, site):
        assert bytes_of(tmp_path) == {".new/which": b".new", "site/which": b"site"}
        pytest.skip("this system or file system has no renameat2 exchange")
    assert (site.stat().st_ino, new.stat().st_ino) == before


@needs_links
def test_an_exchange_that_fails_for_another_reason_is_reported(tmp_path: Path) -> None:
    new, site = two(tmp_path)
    (new / "which").unlink()
    new.rmdir()
    if not hasattr(__import__("ctypes").CDLL(None), "renameat2"):
        pytest.skip("this system has no renameat2")
    with pytest.raises(FileNotFoundError):
        room._exchange(new, site)
    assert bytes_of(tmp_path) == {"site/which": b"site"}


def test_swap_where_nothing_stood(tmp_path: Path) -> None:
    new, site = two(tmp_path)
    (site / "which").unlink()
    site.rmdir()
    swap(new, site)
    assert bytes_of(tmp_path) == {"site/which": b".new"}


def test_without_the_exchange_a_second_rename_that_fails_brings_the_old_site_back(
    house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(room, "_exchange", refuse)
    before = bytes_of(house)
    rename = Path.rename

    def failing(self: Path, target: Path) -> Path:
        if self.name.startswith(".site-") and Path(target).name == "site" and not self.name.endswith("-old"):
            raise OSError(errno.EIO, "no")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(OSError, match="no"):
        publish(small_site("second"), house / "site")
    assert bytes_of(house) == before
    assert [path.name for path in house.iterdir()] == ["site"]


def test_more_faults_than_are_shown(house: Path) -> None:
    """The first are shown, and the number of the others."""
    links = "".join(f'<a href="/gone{number}/">x</a>' for number in range(25))
    page = PAGE.format(title="Soft", up="../", body=links)
    with pytest.raises(NotPublished) as caught:
        publish(small_site(more={"soft/index.html": page}), house / "site")
    lines = str(caught.value).split("\n")
    assert (lines[0], len(lines), lines[-1]) == (
        "The new site has 25 faults; the old one stays.",
        22,
        "… and 5 more.",
    )
