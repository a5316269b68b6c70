"""Plain ``mkdocs build``: works as anyone would expect, is the same every time, and stops in time."""

import os
import re
import subprocess
import sys
import time
from pathlib import Path

import pytest
from small_site import ROOT, bytes_of, config_for, small_site

from checks.small_book import BLEND_FILE, CLAY_FILE, SmallBook

RECIPES = ROOT / "recipes"
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


@pytest.fixture(scope="module")
def twice(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[int, str, Path]]:
    """A book built with two hash seeds, time zones and seconds: exit code, output, site of each.

    The demo book in the long run, the small book every day.
    """
    folder = tmp_path_factory.mktemp("twice")
    config = ROOT / "mkdocs.yml" if LONG else config_for(SmallBook(folder / "recipes"))
    begun = []
    for seed, zone in (("1", "UTC"), ("2", "Pacific/Auckland")):
        process = start(config, folder / seed, PYTHONHASHSEED=seed, TZ=zone)
        begun.append((process, folder / seed))
        time.sleep(1.1)  # so that a clock's second cannot be the same in both
    done = []
    for process, site in begun:
        output, _ = process.communicate()
        done.append((process.returncode, output, site))
    return done


def test_it_builds(twice: list[tuple[int, str, Path]]) -> None:
    code, output, site = twice[0]
    assert code == 0, output
    assert re.findall("(?m)^(?:WARNING|ERROR).*", output) == []
    recipes = RECIPES if LONG else site.parent / "recipes"
    entries = [path for path in recipes.rglob("*.yml") if path.name != "house.yml"]
    assert len(entries) >= 8
    for path in entries:
        assert (site / path.relative_to(recipes).with_suffix("") / "index.html").is_file(), path


def test_two_builds_are_byte_for_byte_the_same(twice: list[tuple[int, str, Path]]) -> None:
    one, other = (bytes_of(site) for _, _, site in twice)
    assert list(one) == list(other)
    assert [name for name in one if one[name] != other[name]] == []
    assert len(one) > 100


@pytest.mark.parametrize(
    ("path", "old", "new", "words", "says"),
    [
        (BLEND_FILE, "ratio: 1:2", "ratio: 1:3", (), f"{BLEND_FILE}:5:20: ratio-out-of-range"),
        (CLAY_FILE, "2026-09-01", "2025-09-01", ("--strict",), f"{CLAY_FILE}:9:45: stale-price (warning)"),
    ],
)
def test_it_stops_before_it_touches_the_site(
    book: SmallBook, config: Path, path: str, old: str, new: str, words: tuple[str, ...], says: str
) -> None:
    site = book.root.parent / "site"
    small_site()(site)
    before = bytes_of(book.root.parent)
    book.edit(path, old, new)
    process = start(config, site, *words)
    output, _ = process.communicate()
    assert process.returncode != 0
    assert says in output
    assert "nothing was built" in output
    assert "Traceback" not in output
    after = bytes_of(book.root.parent)
    assert {name for name in after if after[name] != before.get(name)} == {f"recipes/{path}"}
    assert set(after) == set(before)
