"""Plain ``mkdocs build``: works as anyone would expect, is the same every time, and stops in time."""

import os
import re
import subprocess
import sys
import time
from pathlib import Path

import pytest
from small_site import ROOT, bytes_of, house_config, small_site

from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook
from seeds import rows_with_long

LONG = bool(os.environ.get("BOWLBOOK_LONG"))


def start(config: Path, site: Path, *words: str, **environment: str) -> subprocess.Popen[str]:
    """``python -m mkdocs build`` begun in a process of its own."""
    return subprocess.Popen(
        [sys.executable, "-m", "mkdocs", "build", "-f", str(config), "-d", str(site), *words],
        env={**os.environ, "SOURCE_DATE_EPOCH": "1795564800", **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )


Built = tuple[int, str, Path]
"""Exit code, output and site of a build."""


@pytest.fixture(scope="module")
def config(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo book's configuration in the long run, the small book's every day."""
    own = SmallBook(tmp_path_factory.mktemp("plain") / "recipes")
    return ROOT / "mkdocs.yml" if LONG else house_config(own)


def built(config: Path, site: Path, seed: str, zone: str) -> Built:
    """A book built with a hash seed and a time zone."""
    process = start(config, site, PYTHONHASHSEED=seed, TZ=zone)
    output, _ = process.communicate()
    return process.returncode, output, site


@pytest.fixture(scope="module")
def first(config: Path, tmp_path_factory: pytest.TempPathFactory) -> Built:
    return built(config, tmp_path_factory.mktemp("first") / "site", "1", "UTC")


@pytest.mark.more
def test_it_builds(first: Built, config: Path) -> None:
    code, output, site = first
    assert code == 0, output
    assert re.findall("(?m)^(?:WARNING|ERROR).*", output) == []
    recipes = config.parent / "recipes"
    entries = [path for path in recipes.rglob("*.yml") if path.name != "house.yml"]
    assert len(entries) >= 8
    for path in entries:
        assert (site / path.relative_to(recipes).with_suffix("") / "index.html").is_file(), path


@pytest.mark.long
def test_two_builds_are_byte_for_byte_the_same(first: Built, config: Path, tmp_path: Path) -> None:
    time.sleep(1.1)  # so that a clock's second cannot be the same in both
    one, other = (
        bytes_of(site) for _, _, site in (first, built(config, tmp_path / "site", "2", "Pacific/Auckland"))
    )
    assert list(one) == list(other)
    assert [name for name in one if one[name] != other[name]] == []
    assert len(one) > 100


@pytest.mark.parametrize(
    ("path", "old", "new", "words", "says"),
    rows_with_long(
        [(BLEND_FILE, "ratio: 1:2", "ratio: 1:3", (), f"{BLEND_FILE}:5:20: ratio-out-of-range")],
        [(CLAY_FILE, "2026-09-01", "2025-09-01", ("--strict",), f"{CLAY_FILE}:9:45: stale-price (warning)")],
    ),
)
def test_it_stops_before_it_touches_the_site(
    book: SmallBook, path: str, old: str, new: str, words: tuple[str, ...], says: str
) -> None:
    site, own_config = book.root.parent / "site", house_config(book)
    small_site()(site)
    before = bytes_of(book.root.parent)
    book.edit(path, old, new)
    process = start(own_config, site, *words)
    output, _ = process.communicate()
    assert process.returncode != 0
    assert says in output
    assert "nothing was built" in output
    assert "Traceback" not in output
    after = bytes_of(book.root.parent)
    assert {name for name in after if after[name] != before.get(name)} == {f"recipes/{path}"}
    assert set(after) == set(before)
