"""What is made from a book depends on the book alone: no cache key covers a clock, a file or chance."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "generator" / "bowlbook"
ROOMS = ("entries", "figures", "checks", "wording", "pages")
"""Rooms whose functions run while a cached result is made."""
MODULES = {"os", "random", "secrets", "socket", "subprocess", "tempfile", "time", "uuid"}
CALLS = {
    *("today", "now", "utcnow", "cwd", "home", "getenv", "resolve", "stat"),
    *("open", "read_text", "read_bytes", "iterdir", "glob", "rglob", "exists", "is_file", "is_dir"),
}
OF_THE_PROGRAM = "reads files of the package, whose digest is part of every key"
ALLOWED = {
    "checks/day.py": "the one place that knows the day, which `run_checks` gets and every key has",
    "checks/run.py": OF_THE_PROGRAM,
    "entries/own_list.py": OF_THE_PROGRAM,
    "pages/asset.py": OF_THE_PROGRAM,
    "pages/manual/help_text.py": OF_THE_PROGRAM,
}


def impure_in(source: str) -> Iterator[str]:
    """Each import and call that makes a result depend on more than its arguments, with its line."""
    for node in ast.walk(ast.parse(source)):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names if alias.name.partition(".")[0] in MODULES]
        elif isinstance(node, ast.ImportFrom) and (node.module or "").partition(".")[0] in MODULES:
            names = [str(node.module)]
        elif isinstance(node, ast.Call):
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            names = [name] if name in CALLS else []
        yield from (f"{name}, line {getattr(node, 'lineno', 0)}" for name in names)


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_asks_neither_clock_nor_files_nor_chance(room: str) -> None:
    found = {
        path.relative_to(PACKAGE).as_posix(): list(impure_in(path.read_text(encoding="utf-8")))
        for path in (PACKAGE / room).rglob("*.py")
    }
    impure = {name: said for name, said in found.items() if said}
    assert set(impure) == {name for name in ALLOWED if name.startswith(f"{room}/")}, impure


@pytest.mark.parametrize(
    "source",
    [
        "from datetime import date\ntitle = date.today()",
        "import os\nuser = os.environ['USER']",
        "from random import choice",
        "text = open('prices.csv').read()",
        "text = path.read_text()",
        "import time",
    ],
)
def test_what_it_finds(source: str) -> None:
    assert list(impure_in(source))


def test_what_it_lets_pass() -> None:
    assert not list(impure_in("def find(book, entry, today):\n    return today.isoformat() + entry.text"))
