"""The design's arrows, kept: each room imports only rooms to its left, and each foreign library one room."""

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "generator" / "bowlbook"
ORDER = ["cache", "reading", "entries", "book", "figures", "checks"]
ORDER += ["formatting", "exporting", "importing", "wording", "pages", "site", "commands"]
WITHOUT_CACHE = ("reading", "entries", "figures", "wording")
"""Rooms that know nothing of the cache: what they work out follows from what they are given."""
BESIDE = ("formatting", "exporting", "importing")
"""Rooms that only the command line asks: pages and site are not made of them."""
ALONE = {  # a name that ends with a slash: the whole room
    "yaml": {"reading/yaml_reader.py", "reading/nodes.py"},
    "python_calamine": {"importing/table.py"},
    "jinja2": {
        "pages/render.py",
        "site/beneath.py",
        "site/engine.py",
        "site/plugin.py",
        "site/theme_files.py",
    },
    "markdown": {"pages/free_text.py"},
    "nh3": {"pages/free_text.py"},
    "PIL": {"reading/picture.py", "site/picture_copy.py"},
    "mkdocs": {"site/"},
    "filelock": {"site/lock.py"},
    "platformdirs": {"cache/place.py"},
    "babel": {"wording/locale_format.py", "checks/unknown_currency.py"},
    "pint": {"figures/unit.py"},
}


def imports_of(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: a relative import"
            yield node.module or ""


def test_each_room_imports_only_rooms_to_its_left() -> None:
    seen = 0
    for path in PACKAGE.rglob("*.py"):
        room = path.relative_to(PACKAGE).parts[0]
        if room.endswith(".py"):
            continue
        assert room in ORDER, f"{room} has no place in the order"
        for name in imports_of(path):
            parts = name.split(".")
            if parts[0] == "bowlbook":
                seen += 1
                assert parts[1] in ORDER[: ORDER.index(room) + 1], f"{path} imports {name}"
                assert parts[1] != "cache" or room not in WITHOUT_CACHE, f"{path} imports {name}"
    assert seen > 200


def test_only_commands_asks_the_rooms_beside() -> None:
    users = set()
    for path in PACKAGE.rglob("*.py"):
        room = path.relative_to(PACKAGE).parts[0]
        for parts in (name.split(".") for name in imports_of(path)):
            if parts[0] == "bowlbook" and parts[1:2] and parts[1] in BESIDE:
                users.add(room)
    assert users <= {"commands", *BESIDE} and "commands" in users


def test_each_foreign_library_has_its_own_room() -> None:
    for path in PACKAGE.rglob("*.py"):
        place = path.relative_to(PACKAGE).as_posix()
        for name in imports_of(path):
            places = ALONE.get(name.split(".")[0])
            room = f"{place.partition('/')[0]}/"
            assert places is None or place in places or room in places, f"{place} imports {name}"
