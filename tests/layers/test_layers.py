"""The design's arrows, kept: each room imports only rooms to its left, and each foreign library one room."""

import ast
from pathlib import Path

import pytest

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
    "deflate": {"site/book_pages.py", "site/offline.py"},
    "PIL": {"reading/picture.py", "site/picture_copy.py"},
    "mkdocs": {"site/"},
    "filelock": {"site/lock.py"},
    "platformdirs": {"cache/place.py"},
    "babel": {"wording/locale_format.py", "checks/unknown_currency.py"},
    "pint": {"figures/unit.py"},
}


@pytest.fixture(scope="module")
def imports() -> list[tuple[str, str, list[str]]]:
    """Every import of the package: the importing module, its room, and the parts of the imported name."""
    found = []
    for path in PACKAGE.rglob("*.py"):
        place = path.relative_to(PACKAGE)
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom):
                assert node.level == 0, f"{path}: a relative import"
                names = [node.module or ""]
            found += [(place.as_posix(), place.parts[0], name.split(".")) for name in names]
    return found


def test_each_room_imports_only_rooms_to_its_left(imports) -> None:
    within = [each for each in imports if each[2][0] == "bowlbook" and not each[1].endswith(".py")]
    assert len(within) > 200
    for place, room, parts in within:
        assert room in ORDER, f"{room} has no place in the order"
        assert parts[1] in ORDER[: ORDER.index(room) + 1], f"{place} imports {parts}"
        assert parts[1] != "cache" or room not in WITHOUT_CACHE, f"{place} imports {parts}"


def test_only_commands_asks_the_rooms_beside(imports) -> None:
    users = {room for _, room, parts in imports if parts[0] == "bowlbook" and {*parts[1:2]} & {*BESIDE}}
    assert users <= {"commands", *BESIDE} and "commands" in users


def test_each_foreign_library_has_its_own_room(imports) -> None:
    for place, room, parts in imports:
        places = ALONE.get(parts[0], {place})
        assert place in places or f"{room}/" in places, f"{place} imports {parts}"
