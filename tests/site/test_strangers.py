"""Which files of an output folder no build made."""

import os
from pathlib import Path

import pytest
from small_site import small_site

from bowlbook.site.manifest import MANIFEST, files_under, remove_made, strangers, write_manifest
from systems import needs_links, needs_names


def test_nothing_there_is_free(tmp_path: Path) -> None:
    assert strangers(tmp_path / "site") is None


def test_an_empty_folder_has_no_strangers(tmp_path: Path) -> None:
    assert strangers(tmp_path) == []


def test_a_site_that_was_built_has_no_strangers(tmp_path: Path) -> None:
    small_site()(tmp_path)
    assert strangers(tmp_path) == []
    whose, *listed = (tmp_path / MANIFEST).read_text(encoding="utf-8").splitlines()
    assert whose == "/audience team" and listed == files_under(tmp_path)
    assert MANIFEST in listed


@needs_links
def test_what_was_put_there_later(tmp_path: Path) -> None:
    small_site()(tmp_path)
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    (tmp_path / "soft/.hidden").write_text("mine", encoding="utf-8")
    (tmp_path / "link").symlink_to("index.html")
    (tmp_path / "away").symlink_to(tmp_path.parent)
    assert strangers(tmp_path) == ["away", "link", "notes.txt", "soft/.hidden"]


def test_without_a_list_everything_is_strange(tmp_path: Path) -> None:
    small_site()(tmp_path)
    (tmp_path / MANIFEST).unlink()
    assert strangers(tmp_path) == files_under(tmp_path)
    assert len(files_under(tmp_path)) == 6


@needs_links
def test_a_file_or_a_link_where_the_site_should_be(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to("real")
    (tmp_path / "loose").symlink_to("nowhere")
    assert strangers(tmp_path / "file") == ["file"]
    assert strangers(tmp_path / "link") == ["link"]
    assert strangers(tmp_path / "loose") == ["loose"]


def test_the_list_is_written_alike_every_time(tmp_path: Path) -> None:
    small_site()(tmp_path)
    once = (tmp_path / MANIFEST).read_bytes()
    write_manifest(tmp_path, "team", files_under(tmp_path))
    assert (tmp_path / MANIFEST).read_bytes() == once


@needs_names
@pytest.mark.parametrize("name", ["a\nb.png", "a\n\nb.png", "\n", b"caf\xe9.png"])
def test_a_site_built_with_a_strange_name_can_be_built_again(tmp_path: Path, name: str | bytes) -> None:
    """Builds refuse such names now; sites that older ones made are still their own, and can be removed."""
    site = tmp_path / "site"
    small_site()(site)
    (site / os.fsdecode(name)).write_text("x", encoding="utf-8")
    write_manifest(site, "team", files_under(site))
    assert strangers(site) == []
    (site / "mine\nindex.html").write_text("mine", encoding="utf-8")
    assert strangers(site) == ["mine\nindex.html"]
    (site / "mine\nindex.html").unlink()
    assert remove_made(site)
