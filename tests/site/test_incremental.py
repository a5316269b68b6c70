"""A preview rebuilt after an edit is one built from nothing, byte by byte; only changes are written."""

import os
import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from book_edits import (
    BOOK_EDITS,
    HOUSE_EDITS,
    Edit,
    changed,
    page_added,
    theme_that_lists_all_pages,
    write_house,
)
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException
from small_site import bytes_of

from bowlbook.site.incremental import Incremental
from bowlbook.site.session import Session
from systems import needs_links

ADDRESS = "http://127.0.0.1:8000/"


@pytest.fixture
def house(tmp_path: Path) -> Path:
    write_house(tmp_path / "house", 4)
    return tmp_path / "house"


Preview = Callable[[], dict[str, bytes]]


@pytest.fixture
def preview(house: Path, tmp_path: Path) -> Preview:
    """What serving does at its start, and after each edit; returns every file of the preview."""
    session = serving()
    return lambda: built(house, tmp_path / "site", session)


def serving() -> Session:
    return Session(incremental=Incremental(), serving=True)


def built(house: Path, site: Path, session: Session) -> dict[str, bytes]:
    config = load_config(str(house / "mkdocs.yml"), site_dir=str(site))
    config.plugins["bowlbook"].session = session
    config.site_url = ADDRESS
    build(config, serve_url=ADDRESS, dirty=True)
    return bytes_of(site)


def from_nothing(house: Path) -> dict[str, bytes]:
    """The preview as one that begins now would build it."""
    site = house.parent / "from-nothing"
    shutil.rmtree(site, ignore_errors=True)
    return built(house, site, serving())


def _broken(house: Path, draw: random.Random) -> None:
    """A mistake, corrected again."""
    path = house / "recipes" / "house.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text("title: [\n" + text, encoding="utf-8")
    with pytest.raises(MkDocsException):
        built(house, house.parent / "broken", serving())
    path.write_text(text, encoding="utf-8")


def same_after(edits: list[Edit], house: Path, preview: Preview, draw: random.Random) -> None:
    preview()
    for edit in edits:
        edit(house, draw)
        assert preview() == from_nothing(house), edit.__name__


@pytest.mark.long
@pytest.mark.parametrize("seed", range(5 if os.environ.get("BOWLBOOK_LONG") != "short" else 1))
def test_after_any_edits_in_any_order(house: Path, preview: Preview, seed: int) -> None:
    draw = random.Random(seed)
    edits = [*HOUSE_EDITS, _broken, *BOOK_EDITS]
    draw.shuffle(edits)
    edits += [theme_that_lists_all_pages, BOOK_EDITS[0], page_added]
    same_after(edits, house, preview, draw)


def test_only_what_changed_is_written(house: Path, preview: Preview) -> None:
    site = house.parent / "site"
    preview()
    before = {path: path.stat().st_mtime_ns for path in site.rglob("*.html")}
    path = sorted((house / "recipes" / "blends").iterdir())[0]
    changed(path, "notes: |\n", "notes: |\n  One more word.\n")
    preview()
    written = {path for path, when in before.items() if path.stat().st_mtime_ns != when}
    assert site / "blends" / path.stem / "index.html" in written
    assert 0 < len(written) < len(before) / 4


@pytest.mark.long
def test_a_page_that_is_gone(house: Path, preview: Preview) -> None:
    site = house.parent / "site"
    (house / "docs" / "deep").mkdir()
    (house / "docs" / "deep" / "page.md").write_text("# Deep\n\nText.\n", encoding="utf-8")
    preview()
    assert (site / "deep" / "page" / "index.html").is_file()
    shutil.rmtree(house / "docs" / "deep")
    preview()
    assert not (site / "deep").exists()
    assert (site / "words" / "index.html").is_file()


@pytest.mark.long
def test_a_build_that_failed_half_way_is_followed_by_a_whole_one(
    house: Path, preview: Preview, monkeypatch: pytest.MonkeyPatch
) -> None:
    preview()
    with monkeypatch.context() as patch:
        patch.setattr(Incremental, "recording", None)  # while the first page is written
        changed(house / "docs" / "words.md", "One", "Two")
        with pytest.raises(TypeError):
            preview()
    assert preview() == from_nothing(house)


@pytest.mark.long
def test_a_page_that_is_left_out_from_now_on(house: Path, preview: Preview) -> None:
    """By the configuration: it is still there, and no page of the site any more."""
    (house / "docs" / "more.md").write_text("# More\n", encoding="utf-8")
    preview()
    with (house / "mkdocs.yml").open("a", encoding="utf-8") as config:
        config.write("exclude_docs: |\n  /more.md\n  /picture.svg\n")
    assert preview() == from_nothing(house)


@pytest.mark.long
def test_a_page_by_hand_at_the_place_of_a_recipe(house: Path, preview: Preview) -> None:
    """It is refused, so that the recipe's page, with its cautions, goes on standing there."""
    blend = sorted((house / "recipes" / "blends").iterdir())[0].stem
    preview()
    (house / "docs" / "blends").mkdir()
    (house / "docs" / "blends" / f"{blend}.md").write_text("# By hand\n", encoding="utf-8")
    with pytest.raises(MkDocsException):
        preview()
    assert b"By hand" not in (house.parent / "site" / "blends" / blend / "index.html").read_bytes()
    (house / "docs" / "blends" / f"{blend}.md").unlink()
    assert preview() == from_nothing(house)


@pytest.mark.parametrize("name", ["words.txt", "sign.svg"])
@pytest.mark.long
def test_a_template_takes_in_a_file_of_another_kind(house: Path, preview: Preview, name: str) -> None:
    (house / "own" / name).write_text("one", encoding="utf-8")
    footer = house / "own" / "partials" / "footer.html"
    footer.write_text(f'<footer>{{% include "{name}" %}}</footer>', encoding="utf-8")
    preview()
    (house / "own" / name).write_text("another", encoding="utf-8")
    assert preview() == from_nothing(house)


@pytest.mark.long
def test_a_template_shows_the_day_of_a_page(house: Path, preview: Preview) -> None:
    """The day of the newest review, that a page by hand has too."""
    footer = house / "own" / "partials" / "footer.html"
    footer.write_text("<footer>{{ page.update_date }}</footer>", encoding="utf-8")
    preview()
    for path in sorted((house / "recipes" / "blends").iterdir())[:1]:
        text = re.sub(r"on: [\d-]+", "on: 2026-11-20", path.read_text(encoding="utf-8"))
        path.write_text(text, encoding="utf-8")
    assert preview() == from_nothing(house)


@pytest.mark.long
def test_a_page_whose_front_matter_has_keys_of_several_kinds(house: Path, preview: Preview) -> None:
    (house / "docs" / "more.md").write_text("---\n1: a\nb: c\n---\n# More\n", encoding="utf-8")
    preview()
    changed(house / "docs" / "more.md", "1: a", "description: Of more\n1: a")
    assert preview() == from_nothing(house)


@needs_links
@pytest.mark.long
def test_an_editor_holds_a_template(house: Path, preview: Preview) -> None:
    """Its lock beside the file may be a link that leads nowhere."""
    preview()
    (house / "own" / "partials" / ".#footer.html").symlink_to("somebody@here.4711")
    changed(house / "own" / "partials" / "footer.html", "ours", "ours, edited")
    assert preview() == from_nothing(house)
