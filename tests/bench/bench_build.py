"""How long a build takes: ours, plain MkDocs on the same pages as Markdown, Hugo with an equal layout.

``python tests/bench/bench_build.py [RECIPES] [ROUNDS]`` (1000 and 5 if left out) needs
``pip install -e ".[bench]"``. All are run in turn, round after round, each in a process of its own; printed
are medians, their ratio to plain MkDocs, the most memory any of them took, and how large the sites are.
With ROUNDS 0 only our own cold build is run, once, for books that plain MkDocs would take hours for.
"""

import gzip
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from memory import Watch
from plain_site import write_plain
from synthetic import write_project

ROOT = Path(__file__).parents[2]
BOWLBOOK = [sys.executable, "-m", "bowlbook.commands"]
MKDOCS = [sys.executable, "-m", "mkdocs", "build", "-q", "-d"]
HUGO = [str(Path(sys.executable).with_name("hugo")), "--quiet", "-d"]
ADDRESS = "127.0.0.1:8765"


@dataclass(frozen=True)
class Work:
    """A command, where it is run, how many processes it may use, and what is done to the book before."""

    words: list[str]
    folder: Path
    before: Callable[[], None] = lambda: None
    processes: str = ""


def surroundings(cache: Path, processes: str = "") -> dict[str, str]:
    """The environment of an installed program, which is not compiled at each start."""
    others = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    own = {
        "PYTHONPATH": str(ROOT / "generator"),
        "BOWLBOOK_CACHE": str(cache),
        "BOWLBOOK_PROCESSES": processes,
    }
    return {**others, **own}


def timed(work: Work, cache: Path) -> tuple[float, float]:
    """Seconds that a command takes, and the most memory it and its own processes had, in MB."""
    work.before()
    environment = surroundings(cache, work.processes)
    quiet = subprocess.DEVNULL
    began = time.monotonic()
    child = subprocess.Popen(work.words, cwd=work.folder, env=environment, stdout=quiet, stderr=quiet)
    with Watch(child.pid) as watch:
        assert child.wait() == 0, work.words
    return time.monotonic() - began, watch.most


def size_of(folder: Path) -> str:
    """How many pages and megabytes a site has; of ours what a phone has to fetch at the most."""
    sizes = {path: path.stat().st_size for path in folder.rglob("*") if path.is_file()}
    pages = [size for path, size in sizes.items() if path.name == "index.html"]
    data = [path for name in ("search", "pick") for path in folder.glob(f"data/{name}-*.json")]
    figures = [
        f"{len(pages)} pages, {sum(sizes.values()) / 1e6:.1f} MB",
        f"largest page {max(pages) / 1e3:.0f} kB",
        *(
            f"{path.stem.partition('-')[0]} {sizes[path] / 1e3:.0f} kB, {_packed(path):.0f} packed"
            for path in data
        ),
    ]
    return "; ".join(figures)


def _packed(path: Path) -> float:
    """Kilobytes of a file as a server sends it."""
    return len(gzip.compress(path.read_bytes())) / 1e3


class Edits:
    """Edits of one blend of a book, each another than the last."""

    def __init__(self, folder: Path) -> None:
        blends = sorted((folder / "recipes" / "blends").iterdir())
        self.path = blends[len(blends) // 2]
        self.number = 0

    def notes(self) -> None:
        """A word more in the notes."""
        self.number += 1
        text = re.sub(r"notes: \|\n(  Try \d+\.\n)?", f"notes: |\n  Try {self.number}.\n", self._text())
        self.path.write_text(text, encoding="utf-8")

    def ratio(self) -> None:
        """Other parts: other bowls wherever the blend is used."""
        self.number += 1
        text = re.sub(r"parts: \d+(\.\d)?", f"parts: {2 + self.number % 7}.5", self._text(), count=1)
        self.path.write_text(text, encoding="utf-8")

    def _text(self) -> str:
        return self.path.read_text(encoding="utf-8")


@contextmanager
def served(folder: Path, cache: Path) -> Iterator[None]:
    """The preview of a book, until the block ends."""
    environment = surroundings(cache)
    words = [*BOWLBOOK, "serve", "--address", ADDRESS]
    quiet = subprocess.DEVNULL
    server = subprocess.Popen(words, cwd=folder, env=environment, stdout=quiet, stderr=quiet)
    try:
        while True:
            try:
                fetched("")
                break
            except OSError:
                time.sleep(0.2)
        yield
    finally:
        server.terminate()
        server.wait()


def fetched(path: str) -> str:
    """A page of the preview."""
    with urllib.request.urlopen(f"http://{ADDRESS}/{path}") as answer:
        text: str = answer.read().decode()
    return text


def reloads(edits: Edits, rounds: int) -> list[float]:
    """Seconds from the edit of an entry to the word to reload, as a browser gets it."""
    took = []
    page = f"blends/{edits.path.stem}/"
    for _ in range(rounds):
        epoch, request = re.findall(r"livereload\((\d+), (\d+)\);", fetched(page))[0]
        time.sleep(1)
        began = time.monotonic()
        edits.notes()
        fetched(f"livereload/{epoch}/{request}")
        took.append(time.monotonic() - began)
        assert f"Try {edits.number}." in fetched(page)
    return took


def main(recipes: int, rounds: int) -> None:
    """Write a book and its pages as Markdown, then build them in turn."""
    folder = Path(tempfile.mkdtemp(prefix="bench-"))
    cache = folder / "cache"
    write_project(folder, recipes)
    edits = Edits(folder)

    def empty() -> None:
        shutil.rmtree(cache, ignore_errors=True)

    build = [*BOWLBOOK, "build", "--site"]
    took: dict[str, list[float]] = {}
    most: dict[str, float] = {}

    def measure(name: str, work: Work) -> None:
        seconds, memory = timed(work, cache)
        took.setdefault(name, []).append(seconds)
        most[name] = max(most.get(name, 0), memory)

    cold = Work([*build, "ours"], folder, empty)
    if rounds == 0:
        measure("build, nothing kept", cold)
    else:
        timed(cold, cache)
        write_plain(folder / "ours", folder)
    works = {
        "plain MkDocs": Work([*MKDOCS, str(folder / "plain")], folder / "mkdocs"),
        "build, nothing kept": cold,
        "build again": Work([*build, "ours"], folder),
        "build after one edit of notes": Work([*build, "ours"], folder, edits.notes),
        "build after one edit of parts": Work([*build, "ours"], folder, edits.ratio),
        "build, nothing kept, one process": Work([*build, "ours"], folder, empty, "1"),
        "Hugo": Work([*HUGO, str(folder / "hugo-site")], folder / "hugo"),
        "check, nothing kept": Work([*BOWLBOOK, "check"], folder, empty),
        "check again": Work([*BOWLBOOK, "check"], folder),
        "check after one edit of notes": Work([*BOWLBOOK, "check"], folder, edits.notes),
        "check after one edit of parts": Work([*BOWLBOOK, "check"], folder, edits.ratio),
        "mix": Work([*BOWLBOOK, "mix", edits.path.stem, "--batch", "60g"], folder),
        "--help": Work([*BOWLBOOK, "--help"], folder),
    }
    for _ in range(rounds):
        for name, work in works.items():
            measure(name, work)
    if rounds:
        with served(folder, cache):
            took["serve, edit to reload"] = reloads(edits, rounds)
    plain = statistics.median(took.get("plain MkDocs", [0]))
    print(f"{recipes} recipes, {rounds} rounds, {os.cpu_count()} processors")
    for name, seconds in took.items():
        middle = statistics.median(seconds)
        print(f"{name:36} {middle:8.2f} s  {plain / middle:6.1f} x  {most.get(name, 0):6.0f} MB")
    for name in ("plain", "ours", "hugo-site"):
        if (folder / name).is_dir():
            print(f"{name:36} {size_of(folder / name)}")
    shutil.rmtree(folder)


if __name__ == "__main__":
    main(*map(int, (sys.argv[1:] + ["1000", "5"][len(sys.argv) - 1 :])[:2]))
