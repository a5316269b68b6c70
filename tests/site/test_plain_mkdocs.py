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


def plain_build(config: Path, site: Path, *words: str, **environment: str) -> tuple[int, str]:
    """The exit code of ``python -m mkdocs build``, and what it says."""
    done = subprocess.run(
        [sys.executable, "-m", "mkdocs", "build", "-f", str(config), "-d", str(site), *words],
        env={**os.environ, "SOURCE_DATE_EPOCH": "1795564800", **environment},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    return done.returncode, done.stdout


@pytest.fixture(scope="module")
def config(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo book's configuration in the long run, the small book's every day."""
    own = SmallBook(tmp_path_factory.mktemp("plain") / "recipes")
    return ROOT / "mkdocs.yml" if LONG else house_config(own)


@pytest.fixture(scope="module")
def first(config: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of a build without a warning."""
    site = tmp_path_factory.mktemp("first") / "site"
    code, output = plain_build(config, site, PYTHONHASHSEED="1", TZ="UTC")
    assert code == 0 and re.findall("(?m)^(?:WARNING|ERROR).*", output) == [], output
    return site


@pytest.mark.more
def test_it_builds(first: Path, config: Path) -> None:
    recipes = config.parent / "recipes"
    entries = [path for path in recipes.rglob("*.yml") if path.name != "house.yml"]
    assert len(entries) >= 8
    for path in entries:
        assert (first / path.relative_to(recipes).with_suffix("") / "index.html").is_file(), path


@pytest.mark.long
def test_two_builds_are_byte_for_byte_the_same(first: Path, config: Path, tmp_path: Path) -> None:
    time.sleep(1.1)  # so that a clock's second cannot be the same in both
    plain_build(config, tmp_path / "site", PYTHONHASHSEED="2", TZ="Pacific/Auckland")
    one, other = bytes_of(first), bytes_of(tmp_path / "site")
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
    code, output = plain_build(own_config, site, *words)
    assert code != 0
    assert says in output and "nothing was built" in output
    assert "Traceback" not in output
    after = bytes_of(book.root.parent)
    assert {name for name in after if after[name] != before.get(name)} == {f"recipes/{path}"}
    assert set(after) == set(before)
