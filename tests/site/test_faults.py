"""Published whole or not at all: a fault at every call, kills at random, two builds at once, a full disk."""

import json
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from small_site import PATHS, bytes_of, config_for, python

from checks.small_book import SmallBook
from systems import needs_fork, needs_limits

HERE = Path(__file__).parent
SHORT = os.environ.get("BOWLBOOK_LONG") == "short"


def driven(script: str, *words: object) -> dict[str, Any]:
    """What a driver beside this module prints."""
    done = python(str(HERE / script), *map(str, words))
    assert done.returncode == 0, done.stderr
    result: dict[str, Any] = json.loads(done.stdout)
    return result


@pytest.mark.long
@pytest.mark.parametrize("swapping", ["exchange", "renames"])
def test_a_fault_at_every_call(tmp_path: Path, swapping: str) -> None:
    result = driven("fault_driver.py", tmp_path / "house", "raise", swapping)
    assert result["tried"] > 60 and result["mixed"] == result["none"] == 0, result
    assert {"open", "os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.scandir"} <= set(result["calls"])
    assert result["old"] > 20 and result["new"] > 20


@pytest.mark.long
@pytest.mark.parametrize("swapping", ["exchange", "renames"])
@needs_fork
def test_killed_at_every_call(tmp_path: Path, swapping: str) -> None:
    """With two renames there is one moment without a site; the next build puts the old one back."""
    result = driven("fault_driver.py", tmp_path / "house", "kill", swapping)
    assert result["tried"] > 60 and result["mixed"] == 0, result
    assert result["none"] == (0 if swapping == "exchange" else 1)


@pytest.mark.long
@needs_fork
def test_killed_at_random(tmp_path: Path) -> None:
    """500 kills of real builds, in two processes; BOWLBOOK_LONG=short makes it 40."""
    count = 20 if SHORT else 250
    with ThreadPoolExecutor(2) as both:
        one, two = both.map(
            lambda seed: driven("kill_driver.py", tmp_path / str(seed), seed, count, "kill"), (1, 2)
        )
    print(one, two)
    for result in (one, two):
        assert result["killed"] == count and result["mixed"] == 0, result


@pytest.mark.long
@needs_fork
def test_two_builds_at_once(tmp_path: Path) -> None:
    result = driven("kill_driver.py", tmp_path, 3, 3 if SHORT else 30, "two")
    assert result["mixed"] == result["killed"] == 0, result


def run_build(site: Path, book: SmallBook, limit: int | None) -> subprocess.CompletedProcess[str]:
    """``bowlbook build`` in a process that can write files of so many bytes only, as on a full disk."""

    def small_disk() -> None:
        import resource  # not on Windows

        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    code = "from bowlbook.commands import main; main()"
    words = ["build", "--recipes", str(book.root), "--config", str(config_for(book)), "--site", str(site)]
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        env={**os.environ, "PYTHONPATH": PATHS, "PYTHONDONTWRITEBYTECODE": "1"},
        preexec_fn=None if limit is None else small_disk,
        capture_output=True,
        text=True,
    )


@pytest.mark.long
@needs_limits
def test_a_disk_that_is_full(tmp_path: Path) -> None:
    book = SmallBook(tmp_path / "recipes")
    site = tmp_path / "house" / "site"
    assert run_build(site, book, None).returncode == 0
    before = bytes_of(site)
    result = run_build(site, book, 30_000)
    assert result.returncode == 1
    assert "Nothing was published." in result.stderr and "Traceback" not in result.stderr
    assert bytes_of(site) == before
    assert run_build(site, book, None).returncode == 0
    assert [path.name for path in site.parent.iterdir()] == ["site"]


def test_a_place_where_nothing_can_be_written(tmp_path: Path) -> None:
    book = SmallBook(tmp_path / "recipes")
    (tmp_path / "house").write_text("a file, no folder", encoding="utf-8")
    result = run_build(tmp_path / "house" / "site", book, None)
    assert result.returncode == 1 and "Nothing was published." in result.stderr
    assert "Traceback" not in result.stderr
    assert (tmp_path / "house").read_text(encoding="utf-8") == "a file, no folder"
