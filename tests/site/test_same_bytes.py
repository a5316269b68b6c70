"""Same in, same out: builds in different worlds are the same to the byte."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from small_site import PATHS, bytes_of, house_config

from checks.small_book import SmallBook

pytestmark = pytest.mark.long

HERE = Path(__file__).parent
WORLDS = {
    "another hash seed": ({"PYTHONHASHSEED": "4711"}, 0o022, 0, 0),
    "another time zone": ({"TZ": "Pacific/Kiritimati"}, 0o022, 0, 0),
    "another locale": ({"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "LANGUAGE": "tr"}, 0o022, 0, 0),
    "no locale": ({"LC_ALL": "C", "LANG": "", "PYTHONUTF8": "0"}, 0o022, 0, 0),
    "another umask": ({}, 0o077, 0, 0),
    "another day": ({}, 0o022, 400, 0),
    "another order of files": ({}, 0o022, 0, 11),
    "all of them": ({"PYTHONHASHSEED": "3", "TZ": "America/St_Johns", "LC_ALL": "C"}, 0o027, 1000, 7),
}


def said(site: Path, recipes: Path, config: Path, world: str | None) -> str:
    """What a build in one of `WORLDS` prints, or in an ordinary one, without SOURCE_DATE_EPOCH."""
    ours, mask, days, seed = WORLDS[world] if world else ({}, 0o022, 0, 0)
    given = {key: value for key, value in os.environ.items() if key != "SOURCE_DATE_EPOCH"}
    words = [str(recipes), str(config), str(site), str(days), str(seed)]
    done = subprocess.run(
        [sys.executable, str(HERE / "build_elsewhere.py"), *words],
        env={**given, "PYTHONHASHSEED": "1", "TZ": "UTC", "LC_ALL": "C.UTF-8", "PYTHONPATH": PATHS, **ours},
        umask=mask,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def built(folder: Path, recipes: Path, config: Path, world: str | None) -> dict[str, bytes]:
    """The bytes of a site built in one of `WORLDS`, or in an ordinary one."""
    said(folder / "site", recipes, config, world)
    return bytes_of(folder / "site")


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> SmallBook:
    return SmallBook(tmp_path_factory.mktemp("same") / "recipes")


@pytest.fixture(scope="module")
def config(book: SmallBook) -> Path:
    return house_config(book)


@pytest.fixture(scope="module")
def ordinary(book: SmallBook, config: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    return built(tmp_path_factory.mktemp("ordinary"), book.root, config, None)


@pytest.mark.parametrize("world", WORLDS)
def test_the_same_bytes(
    world: str, book: SmallBook, config: Path, ordinary: dict[str, bytes], tmp_path: Path
) -> None:
    found = built(tmp_path, book.root, config, world)
    assert sorted(found) == sorted(ordinary)
    assert [name for name in found if found[name] != ordinary[name]] == []


def test_the_demo_book_in_another_world(recipes: Path, tmp_path: Path) -> None:
    config = HERE.parents[1] / "mkdocs.yml"
    one = built(tmp_path / "one", recipes, config, None)
    other = built(tmp_path / "other", recipes, config, "all of them")
    assert sorted(one) == sorted(other) and len(one) > 300
    assert [name for name in one if one[name] != other[name]] == []


def test_the_other_world_is_another(book: SmallBook, config: Path, tmp_path: Path) -> None:
    """The day that the check sees is another, so that the test above can fail."""
    day, *_, findings = said(tmp_path / "site", book.root, config, "another day").split()
    assert day > "2027-12" and int(findings) > 3
