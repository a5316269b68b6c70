"""``bowlbook build``: a small book built for real, and an earlier site that stays when anything is wrong.

The earlier site stands beside the recipes in the folder of every test, byte for byte as the first test
built it.
"""

import shutil
from pathlib import Path

import pytest
from click.testing import Result
from small_site import ROOT, build, bytes_of, house_config

from bowlbook.site.entry_page import EntryPage
from bowlbook.site.manifest import MANIFEST, strangers
from checks.small_book import BLEND_FILE, CLAY_FILE, FILES, SmallBook

OURS = ("recipes", "mkdocs.yml", "docs")
"""What a house has in its folder before it builds."""


@pytest.fixture
def config(book: SmallBook) -> Path:
    return house_config(book)


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> tuple[Result, Path]:
    """The small book with a stale price, which is a warning, built once."""
    book = SmallBook(tmp_path_factory.mktemp("first") / "recipes")
    book.edit(CLAY_FILE, "2026-09-01", "2025-09-01")
    return build(book, house_config(book)), book.root.parent / "site"


@pytest.fixture
def earlier(book: SmallBook, first: tuple[Result, Path]) -> Path:
    """The folder with the small book and, beside it, the site that was built first."""
    shutil.copytree(first[1], book.root.parent / "site")
    return book.root.parent


def stays(earlier: Path, first: tuple[Result, Path]) -> None:
    """Assert that the earlier site is what it was, and that nothing is left beside it."""
    assert bytes_of(earlier / "site") == bytes_of(first[1])
    assert {path.name for path in earlier.iterdir()} <= {"site", *OURS}


def test_a_warning_does_not_stop_it(first: tuple[Result, Path]) -> None:
    result, site = first
    assert result.exit_code == 0, result.output
    assert "stale-price (warning)" in result.stderr
    assert f"{site}: {len(bytes_of(site))} files." in result.stdout
    assert [path.name for path in site.parent.iterdir() if path.name not in OURS] == ["site"]
    assert strangers(site) == []
    assert (site / MANIFEST).is_file()


def test_every_entry_has_its_page(first: tuple[Result, Path]) -> None:
    for path in FILES:
        if path != "house.yml":
            page = first[1] / path.removesuffix(".yml") / "index.html"
            name = FILES[path].split("\n")[0].removeprefix("name: ")
            assert name in page.read_text(encoding="utf-8")


def test_no_recipe_file_is_published(first: tuple[Result, Path]) -> None:
    assert not [path for path in first[1].rglob("*") if path.suffix in (".yml", ".yaml", ".py")]


def test_an_error_in_the_book(earlier: Path, first: tuple[Result, Path], book: SmallBook) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    result = build(book, ROOT / "mkdocs.yml")
    assert result.exit_code == 1
    assert f"{book.root / BLEND_FILE}:5:20: ratio-out-of-range" in result.stderr
    assert "Nothing was built." in result.stderr
    stays(earlier, first)


def test_a_warning_and_strict(earlier: Path, first: tuple[Result, Path], book: SmallBook) -> None:
    book.edit(CLAY_FILE, "2026-09-01", "2025-09-01")
    result = build(book, ROOT / "mkdocs.yml", "--strict")
    assert result.exit_code == 1
    assert "Nothing was built." in result.stderr
    stays(earlier, first)


def test_no_book(earlier: Path, first: tuple[Result, Path], book: SmallBook) -> None:
    shutil.rmtree(book.root)
    result = build(book, ROOT / "mkdocs.yml")
    assert result.exit_code == 1
    assert "no-book" in result.stderr
    stays(earlier, first)


def with_page(config: Path, text: str) -> None:
    """Write one more page by hand."""
    (config.parent / "docs" / "extra.md").write_text(f"# Extra\n\n{text}\n", encoding="utf-8")


def test_a_warning_of_the_engine_and_strict(
    earlier: Path, first: tuple[Result, Path], book: SmallBook, config: Path
) -> None:
    with_page(config, "[gone](gone.md)")
    result = build(book, config, "--strict")
    assert result.exit_code == 1
    assert "'gone.md'" in result.stderr
    assert "--strict was asked for" in result.stderr
    stays(earlier, first)


def test_a_broken_anchor(earlier: Path, first: tuple[Result, Path], book: SmallBook, config: Path) -> None:
    with_page(config, "[gone](safety.md#gone)")
    result = build(book, config)
    assert result.exit_code == 1
    assert "extra/index.html: the link ../safety/#gone leads to no anchor." in result.stderr
    stays(earlier, first)


def test_a_fault_of_the_program_half_way(
    earlier: Path, first: tuple[Result, Path], book: SmallBook, config: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rendered: list[str] = []

    def failing(self: EntryPage, config: object, files: object) -> None:
        rendered.append(self.head.address)
        if len(rendered) == 5:
            raise RuntimeError("a fault")
        self.content, self.toc = "", []  # type: ignore[assignment]

    monkeypatch.setattr(EntryPage, "render", failing)
    result = build(book, config)
    assert isinstance(result.exception, RuntimeError)
    assert len(rendered) == 5
    stays(earlier, first)


def test_a_configuration_without_the_plugin(
    earlier: Path, first: tuple[Result, Path], book: SmallBook, config: Path
) -> None:
    config.write_text("site_name: x\n", encoding="utf-8")
    result = build(book, config)
    assert result.exit_code == 1
    assert "does not name the plugin bowlbook" in result.stderr
    stays(earlier, first)


def test_wrong_use(book: SmallBook, tmp_path: Path) -> None:
    assert build(book, tmp_path / "nowhere.yml").exit_code == 2
    assert build(book, ROOT / "mkdocs.yml", "--sote", "x").exit_code == 2
    assert not (tmp_path / "site").exists()
