"""What is kept of a built site: builds, faults and packs are as without it, whatever comes."""

import os
import random
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from book_edits import EDITS
from small_site import PAGE, bytes_of, small_site

from bench.synthetic import write_book
from bowlbook.site import offline, verify
from bowlbook.site.offline import write_copy
from bowlbook.site.verify import faults_of

ROOT = Path(__file__).parents[2]


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    return tmp_path / "cache" / "kept"


def built(house: Path, site: str, cache: str) -> dict[str, bytes]:
    """What ``bowlbook build`` makes of the house's book, over what it made before."""
    subprocess.run(
        [sys.executable, "-m", "bowlbook.commands", "build", "--site", site],
        cwd=house,
        env={**os.environ, "PYTHONPATH": str(ROOT / "generator"), "BOWLBOOK_CACHE": cache},
        check=True,
        capture_output=True,
    )
    return bytes_of(house / site)


def _other_page(root: Path, draw: random.Random) -> None:
    path = root.parent / "docs" / "safety.md"
    path.write_text(path.read_text(encoding="utf-8") + f"\nAsk twice, {draw.random()}.\n", encoding="utf-8")


def _other_nav(root: Path, draw: random.Random) -> None:
    path = root.parent / "mkdocs.yml"
    text = path.read_text(encoding="utf-8").replace(
        "nav:\n", f"nav:\n  - New {draw.random()}: safety.md\n", 1
    )
    path.write_text(text, encoding="utf-8")


def _other_theme(root: Path, draw: random.Random) -> None:
    """A template of the house's own, at first or another."""
    own, config = root.parent / "own" / "partials", root.parent / "mkdocs.yml"
    own.mkdir(parents=True, exist_ok=True)
    (own / "footer.html").write_text(f"<p>{{{{ page.title }}}} {draw.random()}</p>", encoding="utf-8")
    text = config.read_text(encoding="utf-8")
    if "custom_dir" not in text:
        config.write_text(text.replace("theme:\n", "theme:\n  custom_dir: own\n", 1), encoding="utf-8")


WHATEVER = (*EDITS, _other_page, _other_nav, _other_theme)


@pytest.mark.parametrize("seed", [1, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(2, 6))])
def test_builds_after_edits(tmp_path: Path, seed: int) -> None:
    """Each build over the last, with all that was kept of it, and one that keeps nothing: the same bytes."""
    draw = random.Random(seed)
    write_book(tmp_path / "recipes", 6 if seed == 1 else 16, seed=seed)
    shutil.copytree(ROOT / "docs", tmp_path / "docs")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    built(tmp_path, "site", str(tmp_path / "cache"))
    for _ in range(1 if seed == 1 else 9):
        edits = draw.sample(WHATEVER, 2)
        for edit in edits:
            edit(tmp_path / "recipes", draw)
        after = built(tmp_path, "site", str(tmp_path / "cache"))
        anew = built(tmp_path, "anew", "off")
        assert [name for name in after.keys() | anew.keys() if after.get(name) != anew.get(name)] == [], edits


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
def test_faults_that_came_after_a_sound_site(
    tmp_path: Path, kept: Path, spoil: Callable[[Path], None]
) -> None:
    """A page that did not change can still come to lead nowhere."""
    site = tmp_path / "site"
    site.mkdir()
    small_site()(site)
    assert faults_of(site, kept) == []
    assert kept.is_file()
    spoil(site)
    found = faults_of(site)
    assert found
    assert faults_of(site, kept) == found
    assert faults_of(site, kept) == found


def test_pages_that_did_not_change_are_not_looked_into(
    tmp_path: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = tmp_path / "site"
    site.mkdir()
    small_site()(site)
    seen: list[str] = []
    look = verify._seen
    monkeypatch.setattr(verify, "_seen", lambda html: (seen.append(html), look(html))[1])
    faults_of(site, kept)
    assert len(seen) == 3
    page = site / "soft" / "index.html"
    page.write_text(PAGE.format(title="Softer", up="../", body=""), encoding="utf-8")
    faults_of(site, kept)
    assert seen[3:] == [page.read_text(encoding="utf-8")]


def packed(site: Path, kept: Path | None) -> dict[str, bytes]:
    """The copy's packs and worker."""
    shutil.rmtree(site / "copy", ignore_errors=True)
    write_copy(site, "// worker", kept)
    return {name: content for name, content in bytes_of(site).items() if name.startswith(("copy/", "sw.js"))}


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
def test_packs_after_a_change(tmp_path: Path, kept: Path, change: Callable[[Path], None]) -> None:
    site = many_files(tmp_path / "site")
    assert packed(site, kept) == packed(site, None)
    change(site)
    assert packed(site, kept) == packed(site, None)


def test_files_that_did_not_change_are_not_packed_anew(
    tmp_path: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = many_files(tmp_path / "site")
    packs: list[set[str]] = []
    pack = offline._packed
    monkeypatch.setattr(offline, "_packed", lambda files: (packs.append(set(files)), pack(files))[1])
    packed(site, kept)
    assert len(packs) == 4
    _another(site)
    packed(site, kept)
    (again,) = packs[4:]
    assert "page-7/index.html" in again


def _cut(kept: Path) -> None:
    kept.write_bytes(kept.read_bytes()[:5000])


def _other_values(kept: Path) -> None:
    """Every row changed behind the database's back."""
    with sqlite3.connect(kept) as database:
        database.execute("UPDATE kept SET value = X'00'")
    database.close()


def _exchanged(kept: Path) -> None:
    """Each row under the name of another."""
    with sqlite3.connect(kept) as database:
        names = [name for (name,) in database.execute("SELECT name FROM kept")]
        database.execute("UPDATE kept SET name = name || '-'")
        for name, other in zip(names, [*names[1:], names[0]], strict=True):
            database.execute("UPDATE kept SET name = ? WHERE name = ?", (other, f"{name}-"))
    database.close()


def _foreign(kept: Path) -> None:
    kept.chmod(0o666)


def _folder(kept: Path) -> None:
    kept.unlink()
    kept.mkdir()


@pytest.mark.parametrize("spoil", [_cut, _other_values, _exchanged, _foreign, _folder])
def test_what_cannot_be_trusted(tmp_path: Path, kept: Path, spoil: Callable[[Path], None]) -> None:
    site = many_files(tmp_path / "site")
    packs = packed(site, kept)
    spoil(kept)
    assert packed(site, kept) == packs
    looks = kept.with_name("looks")
    small_site()(site)
    assert faults_of(site, looks) == faults_of(site) != []  # many_files has no articles
    spoil(looks)
    assert faults_of(site, looks) == faults_of(site)
