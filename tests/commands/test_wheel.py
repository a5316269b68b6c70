"""The released wheel: what is in it, and the README's commands from nothing to a published book."""

import os
import re
import shutil
import subprocess
import sys
import zipfile
from collections import Counter
from pathlib import Path, PurePosixPath

import pytest

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
CLASSES = {
    "bowlbook": {".py", ".typed"},
    "bowlbook/commands/starts": {".yml", ".yaml", ".md", ".txt", ""},
    "bowlbook/entries": {".yml"},
    "bowlbook/importing": {".yml"},
    "bowlbook/pages/assets": {".js", ".css", ".svg", ".png"},
    "bowlbook/pages/examples": {".yml"},
    "bowlbook/pages/manual": {".md"},
    "bowlbook/pages/templates": {".html", ".svg"},
    "bowlbook/site": {".js"},
    "bowlbook/site/overrides": {".html"},
}
"""The folders of the wheel, and the endings of the files that may be below each."""
MOST_BYTES = 3_000_000
MOST_DEPENDENCIES = 16
pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of what is committed or about to be, so that nothing is built in the working tree."""
    folder = tmp_path_factory.mktemp("source") / "bowlbook"
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    for name in listed.stdout.splitlines():
        if (ROOT / name).is_file():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(ROOT / name, folder / name)
    return folder


@pytest.fixture(scope="module")
def wheel(source: Path) -> Path:
    made = source.parent / "wheel"
    command = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(made), str(source)]
    subprocess.run(command, check=True)
    (found,) = made.glob("*.whl")
    return found


def test_its_files_are_of_these_classes_and_no_others(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as opened:
        infos = [each for each in opened.infolist() if ".dist-info/" not in each.filename]
    assert sum(each.file_size for each in infos) < MOST_BYTES
    seen = Counter(each.filename.partition("/")[0] for each in infos)
    assert set(seen) == {"bowlbook"}
    for each in infos:
        path = PurePosixPath(each.filename)
        folders = [str(parent) for parent in path.parents if str(parent) in CLASSES]
        allowed = set().union(*(CLASSES[folder] for folder in folders))
        assert path.suffix in allowed, each.filename


def test_it_holds_the_package_and_nothing_else(wheel: Path, source: Path) -> None:
    """Every file that the program reads; no test, cache, demo book, and no editor's file."""
    with zipfile.ZipFile(wheel) as opened:
        inside = {each for each in opened.namelist() if ".dist-info/" not in each}
    package = source / "generator"
    files = {path.relative_to(package) for path in (package / "bowlbook").rglob("*") if path.is_file()}
    assert {each.as_posix() for each in files if each.name != "jsconfig.json"} == inside


def test_it_asks_for_no_more_than_it_needs(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as opened:
        (name,) = (each for each in opened.namelist() if each.endswith("METADATA"))
        text = opened.read(name).decode()
    needed = [
        line for line in text.splitlines() if line.startswith("Requires-Dist") and "extra ==" not in line
    ]
    assert 0 < len(needed) <= MOST_DEPENDENCIES, needed


def commands() -> list[str]:
    """The README's commands from nothing to a published book."""
    block = README.split("<!-- command: begin -->")[1].split("```")[1]
    return [line for line in block.strip().splitlines() if line]


def test_there_are_five_or_fewer() -> None:
    assert 0 < len(commands()) <= 5


@pytest.mark.parametrize("origin", ["wheel", "repository"])
def test_from_nothing_to_a_published_strictly_checked_book(
    origin: str, wheel: Path, source: Path, tmp_path: Path
) -> None:
    """In an empty folder and a new environment. The repository's address is that of a clone."""
    environment = {**os.environ, "BOWLBOOK_CACHE": "off"}
    environment.pop("PYTHONPATH", None)
    shutil.copy(wheel, tmp_path)
    if origin == "repository":
        author = ["-c", "user.name=A", "-c", "user.email=a@house.example"]
        for words in (["init", "-q"], ["add", "."], [*author, "commit", "-qm", "First"]):
            subprocess.run(["git", *words], cwd=source, check=True)
    for line in commands():
        if origin == "repository":
            line = re.sub(r"install bowlbook-\S+", f"install 'bowlbook @ git+file://{source}'", line)
        done = subprocess.run(
            ["bash", "-c", line], cwd=tmp_path, env=environment, capture_output=True, text=True
        )
        assert done.returncode == 0, f"{line}\n{done.stdout}\n{done.stderr}"
    books = [path.parent.parent for path in tmp_path.glob("**/recipes/house.yml")]
    (book,) = books
    kinds = Counter(
        re.findall(r"(?m)^kind: (\w+)", "\n".join(p.read_text() for p in book.rglob("products/*.yml")))
    )
    assert set(kinds) == {"lightener", "developer", "toner", "additive", "supply"}
    assert list(book.glob("recipes/blends/*.yml")) and list(book.glob("recipes/techniques/*.yml"))
    assert (book / "site/index.html").is_file() and (book / "site/sw.js").is_file()
    assert not (book / "site/reference").exists()
