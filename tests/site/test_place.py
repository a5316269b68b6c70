"""A site is never put where its sources are: refused before building, by our own command and by MkDocs."""

import os
from pathlib import Path

import pytest
from small_site import ROOT, bytes_of
from test_plain_mkdocs import plain_build

from bowlbook.site.place import fault_of_place
from checks.small_book import SmallBook
from commands.run import invoke
from seeds import with_long
from systems import needs_links

pytestmark = needs_links


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project: configuration, book, pages by hand, and a folder for the theme."""
    house = tmp_path / "house"
    SmallBook(house / "recipes")
    for name in ("docs", "theme"):
        (house / name).mkdir()
    (house / "docs" / "index.md").write_text("# Home\n", encoding="utf-8")
    (house / "mkdocs.yml").write_text(
        "site_name: A book\nplugins: [bowlbook]\ntheme: {name: material, font: false, custom_dir: theme}\n",
        encoding="utf-8",
    )
    (house / "link").symlink_to("recipes")
    monkeypatch.chdir(house)
    return house


def everything(folder: Path) -> tuple[list[str], dict[str, bytes]]:
    return sorted(str(path) for path in folder.rglob("*")), bytes_of(folder)


@pytest.mark.parametrize(
    "site",
    [
        "recipes",
        "recipes/site",
        "recipes/blends/new/site",
        "docs",
        "docs/new/site",
        "theme/site",
        "link/site",
        "docs/../recipes/site",
        ".",
        "..",
        "/",
        "mkdocs.yml",
    ],
)
def test_it_is_refused_with_one_sentence(house: Path, site: str) -> None:
    before = everything(house)
    result = invoke(["build", "--site", site])
    assert result.exit_code == 2
    assert result.stderr.count("The site cannot be put at") == 1 and "Traceback" not in result.stderr
    assert everything(house) == before


def test_the_home_folder(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Also where the project is elsewhere."""
    home = house.parent / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    assert fault_of_place(home, {}) is not None
    assert fault_of_place(home.parent, {}) is not None
    assert fault_of_place(home / "site", {}) is None


@pytest.mark.parametrize("site", ["site", "recipes-site", "public/site", "../site"])
def test_beside_the_sources_is_fine(house: Path, site: str) -> None:
    sources = {name: house / name for name in ("recipes", "docs", "theme", "mkdocs.yml")}
    assert fault_of_place(Path(site), sources) is None


@pytest.mark.parametrize(
    "site",
    with_long(["recipes/site"], [".", "recipes", "theme"]),
)
def test_plain_mkdocs(house: Path, site: str) -> None:
    """It would empty the folder first; of docs and what holds them it takes care itself."""
    before = everything(house)
    code, said = plain_build(house / "mkdocs.yml", Path(site))
    assert code == 1 and "Traceback" not in said, said
    assert "The site cannot be put at" in said or "should not be within the 'site_dir'" in said
    assert everything(house) == before


@pytest.mark.parametrize("sites", ["", "one/recipes", "one/recipes/new", "two/recipes"])
def test_a_group(tmp_path: Path, sites: str) -> None:
    """The site of one book of a group is not put into another's book either."""
    group = tmp_path / "group"
    for name in ("one", "two"):
        SmallBook(group / name / "recipes")
    (group / "mkdocs.yml").write_bytes((ROOT / "mkdocs.yml").read_bytes())
    before = everything(group)
    result = invoke(["build", "--all", str(group), "--site", os.path.normpath(group / sites)])
    assert result.exit_code == 2 and "The site cannot be put at" in result.stderr
    assert everything(group) == before
