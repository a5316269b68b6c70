"""A menu shows only what is there: made from the book, or cut down where ``mkdocs.yml`` has one."""

from pathlib import Path

import pytest
from small_site import ROOT, house_config
from tests.yaml_file import yaml_file

from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.checks.judge import judge
from bowlbook.pages.contents import overviews_of
from bowlbook.pages.manual import manual_menu
from bowlbook.site.engine import build_into
from bowlbook.site.menu import absent_pages, menu_of, titled_pages, without_pages
from checks.small_book import DAY, SmallBook


def test_without_pages_leaves_no_empty_group() -> None:
    nav = [{"A": "a.md"}, {"G": [{"B": "b.md"}, {"H": ["c.md"]}]}, "d.md", {"E": "https://x.example"}]
    assert without_pages(nav, {"b.md", "c.md"}) == [{"A": "a.md"}, "d.md", {"E": "https://x.example"}]
    assert without_pages([{"B": "b.md"}], {"b.md"}) is None
    assert without_pages(nav, set()) == nav


def test_a_kind_that_is_emptied_leaves_the_menu(book: SmallBook) -> None:
    found = read_book(book.root).book
    assert found is not None
    full = absent_pages(found, manual=True)
    assert "classes/index.md" not in full
    (book.root / "classes/first-painting.yml").unlink()
    found = read_book(book.root).book
    assert found is not None
    assert absent_pages(found, manual=True) == full | {"classes/index.md"}


def test_pages_by_hand_stand_between_the_book_and_the_manual(book: SmallBook) -> None:
    found = read_book(book.root).book
    assert found is not None
    menu = menu_of(found, ["index.md", "safety.md", "us/hours.md"], manual=True)
    assert menu[0] == {"Home": "index.md"}
    assert menu[-3:-1] == ["safety.md", {"Us": ["us/hours.md"]}]
    assert list(menu[-1]) == ["Keeping the book"]


@pytest.mark.long
def test_a_title_in_the_menu_is_the_pages(book: SmallBook, config: Path) -> None:
    with config.open("a", encoding="utf-8") as file:
        file.write("nav: [{Home: index.md}, {What we mix & how: blends/index.md}]\n")
    build_into(config.parent / "site", config, judge(book.root, DAY), print)
    html = (config.parent / "site/index.html").read_text(encoding="utf-8")
    assert '<a href="blends/">What we mix &amp; how</a>' in html


@pytest.mark.parametrize("nav", ["", "nav: [{Home: index.md}, {Classes: classes/index.md}]\n"])
def test_a_book_without_any_entry_is_built(tmp_path: Path, nav: str) -> None:
    """Blends that are missing are no pieces for the reports, rather than a missing argument."""
    book = SmallBook(tmp_path / "recipes")
    for path in book.root.glob("*/*.yml"):
        path.unlink()
    config = house_config(book)
    config.write_text(config.read_text("utf-8") + nav, encoding="utf-8")
    (tmp_path / "docs" / "safety.md").unlink()  # the house has none of its own then
    warnings: list[str] = []
    build_into(tmp_path / "site", config, judge(book.root, DAY), warnings.append)
    assert warnings == []
    assert "Classes" not in (tmp_path / "site/index.html").read_text(encoding="utf-8")
    assert "gloves" in (tmp_path / "site/safety/index.html").read_text(encoding="utf-8")


def test_the_demos_menu_names_every_overview_page_once(demo_book: Book) -> None:
    """A new overview page is in both, or a book of one's own would not show it."""
    nav = yaml_file(ROOT / "mkdocs.yml")["nav"]
    named = [path for _, path in titled_pages(nav)]
    made = [f"{each.address}index.md" for each in overviews_of(demo_book)]
    assert len(made) == len(set(made))
    manual = {path for _, path in manual_menu()}
    by_hand = {path.relative_to(ROOT / "docs").as_posix() for path in (ROOT / "docs").rglob("*.md")}
    assert set(named) - manual - by_hand - {"index.md"} == set(made)
