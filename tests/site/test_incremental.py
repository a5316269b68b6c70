"""A preview rebuilt after an edit is one built from nothing, byte by byte; only changes are written."""

import os
import random
import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from book_edits import EDITS, changed
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException
from small_site import bytes_of

from bench.synthetic import write_book
from bowlbook.site.incremental import Incremental
from bowlbook.site.session import Session
from systems import needs_links

ADDRESS = "http://127.0.0.1:8000/"
CONFIG = """\
site_name: A book
docs_dir: docs
theme: {name: material, font: false, custom_dir: own}
plugins: [{bowlbook: {recipes: recipes}}]
markdown_extensions: [tables]
nav:
  - Home: index.md
  - Blends: blends/index.md
  - words.md
"""


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A folder with a book, pages written by hand, and a house's own part of the theme."""
    folder = tmp_path / "house"
    write_book(folder / "recipes", 4)
    (folder / "own" / "partials").mkdir(parents=True)
    (folder / "own" / "partials" / "footer.html").write_text("<footer>ours</footer>", encoding="utf-8")
    (folder / "docs").mkdir()
    (folder / "docs" / "words.md").write_text("# Words\n\nOne [home](blends/index.md).\n", encoding="utf-8")
    (folder / "docs" / "picture.svg").write_text("<svg></svg>", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    return folder


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


Edit = Callable[[Path, random.Random], None]


def _page_edited(house: Path, draw: random.Random) -> None:
    changed(house / "docs" / "words.md", "One", f"One {draw.randint(1, 99)}")


def _page_retitled(house: Path, draw: random.Random) -> None:
    """Every page shows it in the navigation."""
    changed(house / "docs" / "words.md", "# Words", f"# Words {draw.randint(1, 99)}")


def _page_added(house: Path, draw: random.Random) -> None:
    (house / "docs" / f"page-{draw.randint(1, 999)}.md").write_text("# More\n\nText.\n", encoding="utf-8")


def _page_deleted(house: Path, draw: random.Random) -> None:
    for path in sorted((house / "docs").glob("page-*.md"))[:1]:
        path.unlink()


def _picture_changed(house: Path, draw: random.Random) -> None:
    (house / "docs" / "picture.svg").write_text(f"<svg>{draw.random()}</svg>", encoding="utf-8")


def _other_nav(house: Path, draw: random.Random) -> None:
    changed(house / "mkdocs.yml", "  - Blends: ", f"  - Blends {draw.randint(1, 99)}: ")


def _other_option(house: Path, draw: random.Random) -> None:
    changed(house / "mkdocs.yml", "site_name:", f"copyright: Ours {draw.randint(1, 999)}\nsite_name:")
    text = (house / "mkdocs.yml").read_text(encoding="utf-8").split("\n")
    kept = [line for place, line in enumerate(text) if place == 0 or not line.startswith("copyright")]
    (house / "mkdocs.yml").write_text("\n".join(kept), encoding="utf-8")


def _other_theme(house: Path, draw: random.Random) -> None:
    changed(house / "own" / "partials" / "footer.html", "ours", f"ours {draw.randint(1, 99)}")


def _theme_that_lists_all_pages(house: Path, draw: random.Random) -> None:
    text = "<footer>{% for file in pages %}{{ file.page.title }} {% endfor %}ours</footer>"
    (house / "own" / "partials" / "footer.html").write_text(text, encoding="utf-8")


def _of_the_book(edit: Edit) -> Edit:
    def of_the_book(house: Path, draw: random.Random) -> None:
        edit(house / "recipes", draw)

    of_the_book.__name__ = edit.__name__
    return of_the_book


def _broken(house: Path, draw: random.Random) -> None:
    """A mistake, corrected again."""
    path = house / "recipes" / "house.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text("title: [\n" + text, encoding="utf-8")
    with pytest.raises(MkDocsException):
        built(house, house.parent / "broken", serving())
    path.write_text(text, encoding="utf-8")


HOUSE_EDITS = (
    *(_page_edited, _page_retitled, _page_added, _page_deleted, _picture_changed, _other_nav, _other_option),
    *(_other_theme, _broken),
)


def same_after(edits: list[Edit], house: Path, preview: Preview, draw: random.Random) -> None:
    preview()
    for edit in edits:
        edit(house, draw)
        assert preview() == from_nothing(house), edit.__name__


@pytest.mark.long
@pytest.mark.parametrize("seed", range(5 if os.environ.get("BOWLBOOK_LONG") != "short" else 1))
def test_after_any_edits_in_any_order(house: Path, preview: Preview, seed: int) -> None:
    draw = random.Random(seed)
    edits = [*HOUSE_EDITS, *map(_of_the_book, EDITS)]
    draw.shuffle(edits)
    edits += [_theme_that_lists_all_pages, _of_the_book(EDITS[0]), _page_added]
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
