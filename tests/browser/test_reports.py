"""Reports on a phone: every column of every table is in sight, with long names and money as well."""

from collections.abc import Iterator

import pytest
from tests.browser.conftest import built, served
from tests.browser.shared_pages import Open
from tests.browser.small_house import write_small_house
from tests.checks.small_book import BLEND_FILE, HOUSE_FILE

from seeds import with_long

CUT = """() => [...document.querySelectorAll('article table')].flatMap((table) => {
  const edges = [document.documentElement.clientWidth];
  for (let up = table.parentElement; up; up = up.parentElement) {
    if (getComputedStyle(up).overflowX !== 'visible') edges.push(up.getBoundingClientRect().right);
  }
  const right = Math.min(...edges) + 0.5;
  return [...table.querySelectorAll('th, td')].filter((cell) => cell.getBoundingClientRect().right > right
    || cell.scrollWidth > cell.clientWidth + 1).map((cell) => cell.textContent.trim());
})"""
"""Cells of which something is outside the screen, its box or itself."""


@pytest.fixture(scope="module")
def long_words(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A house with a long name for a blend, and with prices in a currency of large numbers."""
    folder = tmp_path_factory.mktemp("reports")
    book = write_small_house(folder / "recipes")
    book.edit(BLEND_FILE, "Soft clay three to one", "Soft clay three to one for Unterscheidungsfarbe")
    book.edit(HOUSE_FILE, "currency: CAD", "currency: JPY")
    for path in ("clay", "powder", "developer-20", "developer-40", "foil"):
        text = book.texts[f"products/{path}.yml"]
        whole = text.replace(".00,", "00,").replace(".50,", "50,").replace(".20,", "20,")
        book.write(f"products/{path}.yml", whole)
    built(book.root, folder / "site")
    with served(folder / "site") as found:
        yield found


@pytest.mark.parametrize("width", with_long([360], [390]))
def test_no_column_is_lost(open_page: Open, long_words: str, address: str, width: int) -> None:
    page = open_page({"width": width, "height": 800})
    for base in (long_words, address):
        for report in ("costs", "weighing", "dates", "coverage"):
            assert page.goto(f"{base}reports/{report}/").ok
            assert page.locator("article table").count() or report == "coverage"
            page.evaluate(
                "document.querySelectorAll('article details').forEach((fold) => { fold.open = true; })"
            )
            assert page.evaluate(CUT) == [], report
            assert page.evaluate("document.documentElement.scrollWidth") <= width, report


def test_what_the_maps_squares_mean_is_read_beside_them(open_page: Open, long_words: str) -> None:
    page = open_page({"width": 390, "height": 844})
    page.goto(f"{long_words}reports/coverage/")
    key = page.locator(".bb-map-key").bounding_box()
    heading = page.locator("article h2").first.bounding_box()
    assert key is not None and heading is not None
    assert key["width"] > 300 and key["y"] + key["height"] <= heading["y"]
