"""A build over the last one: the same bytes as from nothing after any edit; only changes are written."""

import os
import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from book_edits import BOOK_EDITS, HOUSE_EDITS, write_house
from click.testing import Result
from small_site import PAGE, bytes_of, python, small_site

from bowlbook.site import offline
from bowlbook.site.incremental import Incremental
from bowlbook.site.manifest import files_under
from bowlbook.site.offline import write_copy
from bowlbook.site.record import Record, SiteFile, stamps_under
from bowlbook.site.verify import look_over
from checks.small_book import BLEND_FILE, SmallBook
from commands.run import invoke
from systems import needs_links

CONFIG = """\
site_name: A book
docs_dir: docs
theme:
  name: material
  font: false
plugins: [bowlbook: {release: none}]
nav:
  - Home: index.md
  - safety.md
"""


def hand_written(folder: Path) -> None:
    """Pages written by hand, and a configuration, beside a book."""
    (folder / "docs").mkdir()
    (folder / "docs" / "safety.md").write_text("# Safety\n\nRead the label.\n", encoding="utf-8")
    (folder / "docs" / "picture.svg").write_text("<svg></svg>", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")


@pytest.fixture
def house(book: SmallBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small book with its pages and a cache."""
    hand_written(tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    return tmp_path


def build(*words: str) -> Result:
    result = invoke(["build", *words])
    assert result.exit_code == 0, result.output
    return result


def inodes(site: Path) -> dict[str, int]:
    return {name: stamp[2] for name, stamp in stamps_under(site)}


def from_nothing(house: Path, monkeypatch: pytest.MonkeyPatch, *words: str) -> dict[str, bytes]:
    """Every file of a build that knows of no other."""
    with monkeypatch.context() as patch:
        patch.setenv("BOWLBOOK_CACHE", "off")
        build("--site", "from-nothing", *words)
    return bytes_of(house / "from-nothing")


SAME = "Nothing has changed since the last build."


@needs_links
def test_a_build_writes_what_changed_and_no_more(
    house: Path, book: SmallBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Files that are the same are the very same; an unchanged book is not built at all."""
    assert SAME not in build().output
    first, files = inodes(house / "site"), bytes_of(house / "site")
    again = build()
    assert f"{SAME} site: {len(files)} files." in again.stdout
    assert inodes(house / "site") == first
    book.add(BLEND_FILE, "notes: Stir twice.\n")
    build()
    second = inodes(house / "site")
    assert bytes_of(house / "site") == from_nothing(house, monkeypatch)
    written = {name for name, inode in second.items() if first.get(name) != inode}
    assert "blends/soft-clay/index.html" in written
    assert not {"products/violet-powder/index.html", "picture.svg", "safety/index.html", "404.html"} & written
    assert len(written) < len(second) / 3
    assert [path.name for path in house.iterdir() if path.name.startswith(".")] == []


def test_an_unchanged_book_is_known_without_the_site_engine(house: Path) -> None:
    build()
    run = "from bowlbook.commands import main; main(standalone_mode=False)"
    code = f"import sys; {run}; print('mkdocs' in sys.modules)"
    done = python("-c", code, "build")
    assert SAME in done.stdout and done.stdout.endswith("False\n"), done


def _page_edited(house: Path) -> None:
    (house / "docs" / "safety.md").write_text("# Safety\n\nRead it twice.\n", encoding="utf-8")


def _picture_edited(house: Path) -> None:
    (house / "docs" / "picture.svg").write_text("<svg> </svg>", encoding="utf-8")


def _option_edited(house: Path) -> None:
    (house / "mkdocs.yml").write_text(f"{CONFIG}copyright: Ours\n", encoding="utf-8")


def _site_edited_in_place(house: Path) -> None:
    """As many bytes as before."""
    path = house / "site" / "safety" / "index.html"
    path.write_bytes(path.read_bytes().replace(b"label", b"fable"))


def _site_file_deleted(house: Path) -> None:
    (house / "site" / "404.html").unlink()


def _pack_edited_in_place(house: Path) -> None:
    path = next((house / "site" / "copy").iterdir())
    path.write_bytes(path.read_bytes()[::-1])


def _cache_cut(house: Path) -> None:
    for path in (house / "cache" / "bowlbook").glob("*.sqlite"):
        path.write_bytes(path.read_bytes()[:3000])


def _cache_of_another(house: Path) -> None:
    for path in (house / "cache" / "bowlbook").glob("*.sqlite"):
        path.chmod(0o666)


SOURCES = (_option_edited, _picture_edited, _page_edited)
RESULTS = (_site_edited_in_place, _site_file_deleted, _pack_edited_in_place, _cache_cut, _cache_of_another)


@pytest.mark.long
def test_after_any_other_change(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the pages, the configuration, the published site itself, and of what is kept of it: one by one."""
    build()
    for change in SOURCES:  # the first is of every page, the others of one file each
        change(house)
        assert SAME not in build().output, change.__name__
    expected = from_nothing(house, monkeypatch)
    assert bytes_of(house / "site") == expected
    for change in RESULTS:
        change(house)
        assert SAME not in build().output, change.__name__
        assert bytes_of(house / "site") == expected, change.__name__


@pytest.mark.long
def test_a_file_system_without_hard_links(
    house: Path, book: SmallBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    build()
    book.add(BLEND_FILE, "notes: Stir twice.\n")

    def no_links(*paths: object, **options: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    with monkeypatch.context() as patch:
        patch.setattr(os, "link", no_links)
        build()
    assert bytes_of(house / "site") == from_nothing(house, monkeypatch)
    assert SAME in build().output


def test_warnings_are_printed_of_an_unchanged_book_too(house: Path) -> None:
    """Those of a page, and of a template that keeps our scripts out; --strict takes each as before."""
    (house / "docs" / "safety.md").write_text("# Safety\n\n[Gone](gone.png)\n", encoding="utf-8")
    (house / "own").mkdir()
    (house / "own" / "main.html").write_text('{% extends "base.html" %}{% block scripts %}{% endblock %}')
    (house / "mkdocs.yml").write_text(CONFIG.replace("theme:\n", "theme:\n  custom_dir: own\n"))
    (house / "docs" / "gone.png").write_bytes(b"x")  # there for the site, and no longer for MkDocs
    with (house / "mkdocs.yml").open("a") as file:
        file.write("not_in_nav: safety.md\n")
    first = build().stderr
    wanted = "keep the book's scripts off its pages"
    assert first.count(wanted) == 1
    again = build()
    assert SAME in again.stdout and again.stderr.count(wanted) == 1
    (house / "docs" / "picture.svg").write_text("<svg> </svg>", encoding="utf-8")  # no page is rendered
    assert build().stderr.count(wanted) == 1
    assert invoke(["build", "--strict"]).exit_code == 1


@pytest.mark.long
def test_what_a_hook_may_change_is_built_whole(house: Path) -> None:
    hook = "def on_post_page(output, page, config):\n    return output.replace('label', '{}')\n"
    (house / "hook.py").write_text(hook.format("table"), encoding="utf-8")
    (house / "mkdocs.yml").write_text(f"{CONFIG}hooks: [hook.py]\n", encoding="utf-8")
    build()
    (house / "other.py").write_text(hook.format("cable"), encoding="utf-8")  # one process loads a hook once
    (house / "mkdocs.yml").write_text(f"{CONFIG}hooks: [other.py]\n", encoding="utf-8")
    assert SAME not in build().output
    assert b"cable" in (house / "site" / "safety" / "index.html").read_bytes()


@pytest.mark.long
def test_the_other_audience(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing of the team's copy stays."""
    build()
    refused = invoke(["build", "--audience", "public"])
    assert refused.exit_code == 1 and "team's copy" in refused.stderr
    build("--audience", "public", "--replace")
    assert bytes_of(house / "site") == from_nothing(house, monkeypatch, "--audience", "public")
    assert not (house / "site" / "reports" / "costs").exists()


@pytest.mark.long
@pytest.mark.parametrize("seed", range(1, 6))
def test_builds_after_edits(tmp_path: Path, seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each build over the last, after two edits of any kind, and one that keeps nothing: the same bytes."""
    draw = random.Random(seed)
    write_house(tmp_path, 16, seed)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BOWLBOOK_CACHE", str(tmp_path / "cache"))
    build()
    for _ in range(9):
        edits = draw.sample((*BOOK_EDITS, *HOUSE_EDITS), 2)
        for edit in edits:
            edit(tmp_path, draw)
        build()
        assert bytes_of(tmp_path / "site") == from_nothing(tmp_path, monkeypatch), edits


def _no_target(site: Path) -> None:
    shutil.rmtree(site / "soft")


def _no_anchor(site: Path) -> None:
    page = site / "soft" / "index.html"
    page.write_text(page.read_text(encoding="utf-8").replace('id="top"', 'id="end"'), encoding="utf-8")


def _moved(site: Path) -> None:
    """The same bytes in another place: its links lead elsewhere."""
    (site / "far").mkdir()
    (site / "soft").rename(site / "far" / "soft")


def _no_asset(site: Path) -> None:
    (site / "style.css").unlink()


def _emptied(site: Path) -> None:
    (site / "soft" / "index.html").write_text("<html><article> </article></html>", encoding="utf-8")


FAULTS = (_no_target, _no_anchor, _moved, _no_asset, _emptied)


@pytest.mark.parametrize("spoil", FAULTS)
def test_faults_that_came_after_a_sound_site(tmp_path: Path, spoil: Callable[[Path], None]) -> None:
    """A page that did not change can still come to have links that lead nowhere."""
    site = tmp_path / "site"
    site.mkdir()
    small_site()(site)
    first = look_over(site, files_under(site))
    assert first.faults == []
    before = bytes_of(site)
    spoil(site)
    kept = {name for name, content in bytes_of(site).items() if before.get(name) == content}
    found = look_over(site, files_under(site))
    assert found.faults
    assert look_over(site, files_under(site), kept, first.targets).faults == found.faults


def test_an_anchor_of_a_kept_page_that_nothing_led_to(tmp_path: Path) -> None:
    small_site()(tmp_path)
    first = look_over(tmp_path, files_under(tmp_path))
    page = tmp_path / "soft" / "index.html"
    for anchor, faults in (("top", 0), ("end", 1)):
        body = f'<a href="../#{anchor}">x</a>'
        page.write_text(PAGE.format(title="Soft", up="../", body=body), encoding="utf-8")
        assert (
            len(look_over(tmp_path, files_under(tmp_path), {"index.html", "style.css"}, first.targets).faults)
            == faults
        )


def many_files(site: Path) -> Path:
    """A site of several packs."""
    for number in range(100):
        path = site / f"page-{number}" / "index.html"
        path.parent.mkdir(parents=True)
        path.write_text(f"<p>{number}</p>" * 50, encoding="utf-8")
    (site / "photo.png").write_bytes(bytes(range(256)))
    return site


def _another(site: Path) -> None:
    (site / "page-7" / "index.html").write_text("<p>Another.</p>", encoding="utf-8")


def _gone(site: Path) -> None:
    shutil.rmtree(site / "page-7")


def _renamed(site: Path) -> None:
    (site / "page-7").rename(site / "page-seven")


@pytest.mark.parametrize("change", [_another, _gone, _renamed])
def test_packs_after_a_change(
    tmp_path: Path, change: Callable[[Path], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Packs without the file are taken from the last site, and the others packed."""
    earlier, site, alone = (many_files(tmp_path / name) for name in ("earlier", "site", "alone"))
    first = Incremental()
    write_copy(earlier, files_under(earlier), "// worker", (), first)
    stamps = dict(stamps_under(earlier))
    second = Incremental(earlier=earlier)
    second.before = Record({name: SiteFile(b"", stamp) for name, stamp in stamps.items()}, packs=first.packs)
    change(site)
    change(alone)
    before = bytes_of(earlier)
    second.kept = {name for name, content in bytes_of(site).items() if before.get(name) == content}
    second._site = site
    written: list[set[str]] = []
    pack = offline._packed
    with monkeypatch.context() as patch:
        patch.setattr(offline, "_packed", lambda files: (written.append(set(files)), pack(files))[1])
        write_copy(site, files_under(site), "// worker", (), second)
    assert 0 < len(written) < 4
    write_copy(alone, files_under(alone), "// worker")
    assert bytes_of(site) == bytes_of(alone)


@pytest.mark.parametrize("theme", ["theme: mkdocs\n", "theme: {name: readthedocs}\n", ""])
def test_another_theme_is_one_fault(house: Path, theme: str) -> None:
    """Not one for each thing that another theme lacks."""
    text = CONFIG.replace("theme:\n  name: material\n  font: false\n", theme)
    (house / "mkdocs.yml").write_text(text, encoding="utf-8")
    result = invoke(["build"])
    assert result.exit_code == 1
    assert result.stderr.count("pages of a book need the theme material, not") == 1
    assert "faults" not in result.stderr


@pytest.mark.long
@pytest.mark.skipif(not Path("/proc/self").is_dir(), reason="needs a folder that takes no files")
def test_a_place_without_locks(house: Path) -> None:
    """It ends: the library waits for ever there."""
    done = python("-m", "bowlbook.commands", "build", "--site", "/proc/site", seconds=300)
    assert done.returncode == 2, done
    assert "The site cannot be put at /proc/site: no lock file can be made beside it" in done.stderr
    assert "Traceback" not in done.stderr
