"""What is made from a book depends on the book alone: no cache key covers a clock, a file or chance."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[2] / "generator" / "bowlbook"
ROOMS = ("entries", "figures", "checks", "wording", "pages")
"""Rooms whose functions run while a cached result is made."""
MODULES = {
    *("fileinput", "linecache", "mmap", "os", "random", "secrets", "socket", "sqlite3", "subprocess"),
    *("tempfile", "time", "uuid"),
}
READERS = {"bowlbook.book.read_book", "bowlbook.checks.day"}
"""Modules of our own that read files, or know the day."""
CALLS = {
    *("today", "now", "utcnow", "cwd", "home", "getenv", "resolve", "stat"),
    *("open", "read_text", "read_bytes", "iterdir", "glob", "rglob", "exists", "is_file", "is_dir"),
}
OF_THE_PROGRAM = "reads files of the package, whose digest is part of every key"
ALLOWED = {
    "checks/day.py": "the one place that knows the day, which `run_checks` gets and every key has",
    "checks/judge.py": "reads the book whose results are cached",
    "checks/run.py": OF_THE_PROGRAM,
    "entries/own_list.py": OF_THE_PROGRAM,
    "pages/asset.py": OF_THE_PROGRAM,
    "pages/manual/help_text.py": OF_THE_PROGRAM,
}


def impure_in(source: str) -> Iterator[str]:
    """Each import, call and global that makes a result depend on more than its arguments, with its line."""
    tree = ast.parse(source)
    for node in tree.body:
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value and _is_empty(node.value):
            yield f"a global that is empty until something fills it, line {node.lineno}"
    for node in ast.walk(tree):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names if alias.name.partition(".")[0] in MODULES]
        elif isinstance(node, ast.ImportFrom):
            module = node.module or ""
            names = [module] if module.partition(".")[0] in MODULES or module in READERS else []
        elif isinstance(node, ast.Global):
            names = [f"global {', '.join(node.names)}"]
        elif isinstance(node, ast.Call):
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            names = [name] if name in CALLS else []
        yield from (f"{name}, line {getattr(node, 'lineno', 0)}" for name in names)


def _is_empty(value: ast.expr) -> bool:
    """Whether this makes a list, dict or set without anything in it."""
    if isinstance(value, ast.Call):
        name = getattr(value.func, "id", getattr(value.func, "attr", ""))
        return name in {"list", "dict", "set", "defaultdict", "deque", "Counter", "OrderedDict"}
    if isinstance(value, ast.List):
        return not value.elts
    return isinstance(value, ast.Dict) and not value.keys


@pytest.mark.parametrize("room", ROOMS)
def test_a_room_asks_neither_clock_nor_files_nor_chance(room: str) -> None:
    found = {
        path.relative_to(PACKAGE).as_posix(): list(impure_in(path.read_text(encoding="utf-8")))
        for path in (PACKAGE / room).rglob("*.py")
    }
    allowed = {name for name in ALLOWED if name.startswith(f"{room}/")}
    impure = {name: said for name, said in found.items() if said and name not in allowed}
    assert not impure, f"Give the function what it needs as an input or through the book: {impure}"
    assert all(found[name] for name in allowed), "ALLOWED names a module that needs it no longer."


@pytest.mark.parametrize(
    "source",
    [
        "from datetime import date\ntitle = date.today()",
        "import os\nuser = os.environ['USER']",
        "from random import choice",
        "text = open('prices.csv').read()",
        "text = path.read_text()",
        "import time",
        "from linecache import getline",
        "from bowlbook.book.read_book import read_book",
        "from bowlbook.checks.day import today as when",
        "SEEN = []",
        "seen: dict[str, str] = defaultdict(str)",
        "count = 0\ndef page():\n    global count\n    count += 1",
    ],
)
def test_what_it_finds(source: str) -> None:
    assert list(impure_in(source))


def test_what_it_lets_pass() -> None:
    assert not list(impure_in("def find(book, entry, today):\n    return today.isoformat() + entry.text"))
