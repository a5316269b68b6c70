"""What a killed build left is cleared away; what no build made is never deleted."""

from pathlib import Path

import pytest
from site_states import state_of
from small_site import bytes_of, small_site

from bowlbook.site import publish as room
from bowlbook.site.lock import locked
from bowlbook.site.manifest import MANIFEST, begin_manifest, remove_made
from bowlbook.site.publish import NotPublished, publish
from systems import needs_links, needs_modes


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_half_built_whole_and_empty_ones_go(house: Path) -> None:
    half, whole, empty = (house / f".site-{name}" for name in ("abcdefgh", "0_1_2_3_", "zzzzzzzz"))
    for folder in (half, whole, empty):
        folder.mkdir()
    begin_manifest(half)
    (half / "blends").mkdir()
    (half / "blends" / "index.html").write_text("half", encoding="utf-8")
    small_site()(whole)
    publish(small_site("second"), house / "site")
    assert names(house) == ["site"] and state_of(house / "site") == "new"


@needs_links
def test_what_is_not_ours_stays(house: Path) -> None:
    theirs = [".site-backup", ".site-abcdefgh2", "site-abcdefgh", ".other-abcdefgh", ".site-ABCDEFGH"]
    for name in theirs:
        (house / name).mkdir()
        (house / name / "mine.txt").write_text("mine", encoding="utf-8")
    unmarked = house / ".site-aaaaaaaa"  # our kind of name, and no manifest in it
    unmarked.mkdir()
    (unmarked / "mine.txt").write_text("mine", encoding="utf-8")
    (house / ".site-bbbbbbbb").symlink_to(unmarked)
    publish(small_site("second"), house / "site")
    assert names(house) == sorted([*theirs, ".site-aaaaaaaa", ".site-bbbbbbbb", "site"])
    assert (unmarked / "mine.txt").read_text(encoding="utf-8") == "mine"


def test_a_build_that_still_runs_is_left_alone(house: Path) -> None:
    other = house / ".site-abcdefgh"
    other.mkdir()
    begin_manifest(other)
    with locked(house / ".site-abcdefgh-lock"):
        publish(small_site("second"), house / "site")
        assert names(house) == [".site-abcdefgh", ".site-abcdefgh-lock", "site"]
    publish(small_site("second"), house / "site")
    assert names(house) == ["site"]


def test_a_site_put_aside_by_a_killed_build_comes_back(house: Path) -> None:
    (house / "site").rename(house / ".site-abcdefgh-old")

    def fails(folder: Path) -> None:
        raise NotPublished("for this test")

    with pytest.raises(NotPublished):
        publish(fails, house / "site")
    assert names(house) == ["site"] and state_of(house / "site") == "old"


def test_a_file_that_somebody_puts_there_while_it_is_built(house: Path) -> None:
    def slow(folder: Path) -> None:
        small_site("second")(folder)
        (house / "site" / "soft" / "mine.txt").write_text("mine", encoding="utf-8")

    with pytest.raises(NotPublished, match=r"did not make \(soft/mine\.txt\)"):
        publish(slow, house / "site")
    assert (house / "site" / "soft" / "mine.txt").read_text(encoding="utf-8") == "mine"
    assert names(house) == ["site"]


def test_and_at_the_last_moment(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    swap = room.swap

    def late(new: Path, site: Path) -> None:
        (site / "soft" / "mine.txt").write_text("mine", encoding="utf-8")
        swap(new, site)

    monkeypatch.setattr(room, "swap", late)
    published = publish(small_site("second"), house / "site")
    assert state_of(house / "site") == "new"
    assert published.kept is not None
    assert bytes_of(published.kept) == {"soft/mine.txt": b"mine"}


@pytest.mark.parametrize("line", ["../outside.txt", "/outside.txt", "soft/../../outside.txt", ".."])
def test_a_list_that_was_tampered_with_reaches_nothing_else(tmp_path: Path, line: str) -> None:
    outside = tmp_path / "outside.txt"
    outside.write_text("mine", encoding="utf-8")
    folder = tmp_path / "site"
    folder.mkdir()
    small_site()(folder)
    line = str(outside) if line.startswith("/") else line
    with (folder / MANIFEST).open("a", encoding="utf-8") as file:
        file.write(f"{line}\n")
    assert remove_made(folder)
    assert outside.read_text(encoding="utf-8") == "mine" and names(tmp_path) == ["outside.txt"]


@needs_links
def test_links_in_a_half_built_folder_are_removed_and_not_followed(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "mine.txt").write_text("mine", encoding="utf-8")
    folder = tmp_path / "site"
    folder.mkdir()
    begin_manifest(folder)
    (folder / "link").symlink_to(tmp_path / "real")
    assert remove_made(folder)
    assert (tmp_path / "real" / "mine.txt").is_file()


@needs_modes
def test_the_working_folder_itself(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    publish(small_site(), Path())
    assert state_of(tmp_path / "here") == "old" and names(tmp_path) == ["here"]
