"""The empty folders of a replaced site, with which the next build begins: no file, no folder of others."""

import errno
import os
from pathlib import Path

import pytest
from small_site import PAGE, bytes_of, small_site

from bowlbook.site.manifest import MANIFEST
from bowlbook.site.publish import publish
from systems import needs_links, needs_modes

MORE = {f"blends/{name}/index.html": PAGE.format(title=name, up="../../", body="") for name in "abc"}


def folders_of(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_dir())


def kept_in(cache: Path) -> list[Path]:
    """What is kept, whatever the rights in its name."""
    return sorted(cache.glob("book.*"))


@pytest.fixture
def cache(tmp_path: Path) -> Path:
    folder = tmp_path / "cache"
    folder.mkdir(mode=0o700)
    return folder


@pytest.fixture
def site(tmp_path: Path, cache: Path) -> Path:
    """A site that was published twice: the folders of the first are kept, and one more than it has now."""
    site = tmp_path / "house" / "site"
    publish(small_site("first", more=MORE), site, folders=cache / "book.folders")
    publish(small_site("second"), site, folders=cache / "book.folders")
    return site


def test_no_file_is_kept_but_the_list(site: Path, cache: Path) -> None:
    (kept,) = kept_in(cache)
    assert "blends/a" in folders_of(kept)
    assert list(bytes_of(kept)) == [MANIFEST]


def test_the_next_site_is_made_in_them_and_has_no_folder_too_many(
    site: Path, cache: Path, tmp_path: Path
) -> None:
    (kept,) = kept_in(cache)
    soft = (kept / "soft").stat().st_ino
    publish(small_site("third"), site, folders=cache / "book.folders")
    publish(small_site("third"), tmp_path / "plain")
    assert (site / "soft").stat().st_ino == soft
    assert bytes_of(site) == bytes_of(tmp_path / "plain")
    assert folders_of(site) == folders_of(tmp_path / "plain")
    assert site.stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_failed_build_leaves_nothing_beside_the_site(site: Path, cache: Path) -> None:
    def fails(folder: Path) -> None:
        small_site("third")(folder)
        raise OSError(errno.ENOSPC, "for this test")

    before = bytes_of(site)
    with pytest.raises(OSError, match="for this test"):
        publish(fails, site, folders=cache / "book.folders")
    assert [path.name for path in site.parent.iterdir()] == ["site"]
    assert bytes_of(site) == before and list(bytes_of(kept_in(cache)[0])) == [MANIFEST]


def test_on_another_disk_they_are_removed(site: Path, cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rename = Path.rename

    def across(self: Path, target: Path) -> Path:
        if cache in (self.parent, target.parent):
            raise OSError(errno.EXDEV, "for this test")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", across)
    publish(small_site("third"), site, folders=cache / "book.folders")
    assert [path.name for path in site.parent.iterdir()] == ["site"]


@needs_links
@needs_modes
@pytest.mark.parametrize("spoilt", ["link", "open cache", "open"])
def test_folders_that_others_may_have_made_are_not_used(
    site: Path, cache: Path, tmp_path: Path, spoilt: str
) -> None:
    (kept,) = kept_in(cache)
    if spoilt == "link":
        kept.rename(tmp_path / "elsewhere")
        kept.symlink_to(tmp_path / "elsewhere")
    else:
        (cache if spoilt == "open cache" else kept).chmod(0o777)
    numbers = {path.stat().st_ino for path in kept.rglob("*")} | {kept.stat().st_ino}
    publish(small_site("third"), site, folders=cache / "book.folders")
    assert not numbers & {path.stat().st_ino for path in [site, *site.rglob("*")] if path.is_dir()}


@needs_modes
def test_a_changed_mask_counts_for_every_folder(site: Path, cache: Path) -> None:
    before = os.umask(0o027)
    try:
        publish(small_site("third"), site, folders=cache / "book.folders")
    finally:
        os.umask(before)
    assert {path.stat().st_mode & 0o777 for path in [site, *site.rglob("*")] if path.is_dir()} == {0o750}
