"""Reports on a phone: every column of every table is in sight, with long names and money as well."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext
from tests.browser.conftest import built, served
from tests.browser.shared_pages import Open
from tests.browser.small_house import write_small_house
from tests.checks.small_book import BLEND_FILE, HOUSE_FILE

CUT = """() => [...document.querySelectorAll('article table')].flatMap((table) => {
  const edges = [document.documentElement.clientWidth];
  for (let up = table.parentElement; up; up = up.parentElement) {
    if (getComputedStyle(up).overflowX !== 'visible') edges.push(up.getBoundingClientRect().right);
  }
  const right = Math.min(...edges) + 0.5;
  return [...table.querySelectorAll('th, td')].filter((cell) => cell.getBoundingClientRect().right > right
    || cell.scrollWidth > cell.clientWidth + 1)
    .filter((cell) => cell.innerText).map((cell) => cell.textContent.trim());
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


@pytest.mark.long
@pytest.mark.parametrize("width", [360, 390])
def test_no_column_is_lost(open_page: Open, long_words: str, address: str, width: int) -> None:
    page = open_page({"width": width, "height": 800})
    for base in (long_words, address):
        for report in ("costs", "weighing", "dates", "coverage", "coverage/gaps"):
            assert page.goto(f"{base}reports/{report}/").ok
            assert page.locator("article table").count() or report == "coverage/gaps"
            page.evaluate(
                "document.querySelectorAll('article details').forEach((fold) => { fold.open = true; })"
            )
            assert page.evaluate(CUT) == [], report
            assert page.evaluate("document.documentElement.scrollWidth") <= width, report


@pytest.mark.long
def test_what_the_maps_squares_mean_is_read_beside_them(open_page: Open, long_words: str) -> None:
    page = open_page({"width": 390, "height": 844}, f"{long_words}reports/coverage/")
    key = page.locator(".report-map-key").bounding_box()
    heading = page.locator("article h2").first.bounding_box()
    assert key is not None and heading is not None
    assert key["width"] > 300 and key["y"] + key["height"] <= heading["y"]


@pytest.mark.long
def test_the_whole_of_coverage_is_about_two_screens_and_each_report_says_its_answer_first(
    open_page: Open, address: str
) -> None:
    page = open_page({"width": 390, "height": 844})
    for report, most in (("costs", 2500), ("weighing", 1500), ("dates", 1500), ("coverage", 2000)):
        page.goto(f"{address}reports/{report}/")
        assert page.evaluate("document.documentElement.scrollHeight") <= most, report
        lead = page.locator(".bb-lead").bounding_box()
        assert lead is not None and lead["y"] + lead["height"] < 300
    last = page.locator(".report-maps svg").last.bounding_box()
    assert last is not None and last["y"] + last["height"] < 2 * 844


@pytest.mark.long
def test_nothing_of_coverage_is_cut_or_broken_in_very_large_type(phone: BrowserContext, address: str) -> None:
    """200 % text on 320 px, as a browser's own setting makes it (WCAG 2.2, SC 1.4.4)."""
    page = phone.new_page()
    page.set_viewport_size({"width": 320, "height": 640})
    session = page.context.new_cdp_session(page)
    session.send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    page.goto(f"{address}reports/coverage/")
    assert page.evaluate("parseFloat(getComputedStyle(document.documentElement).fontSize)") == 32
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    broken = "heads => heads.filter((head) => { const line = document.createRange();"
    broken += " line.selectNodeContents(head); return line.getClientRects().length !== 1; }).length"
    assert page.locator(".report-maps th").evaluate_all(broken) == 0


@pytest.mark.long
def test_what_is_drawn_stands_before_the_number_of_a_page(open_page: Open, address: str) -> None:
    page = open_page({"width": 390, "height": 844})
    for report in ("weighing", "dates"):
        page.goto(f"{address}reports/{report}/")
        drawn, number = page.locator(".report-part svg").last, page.get_by_text("Page 1 of")
        assert drawn.bounding_box()["y"] < number.bounding_box()["y"]  # type: ignore[index]


def test_a_square_of_coverage_is_drawn_for_every_kind_of_head(open_page: Open, address: str) -> None:
    """45 pairs of natural level and lift that end at level 10 or below; 3 textures, 3 tones, 4 areas."""
    page = open_page({"width": 390, "height": 844}, f"{address}reports/coverage/")
    squares = page.locator(".report-maps .report-square").evaluate_all(
        "paths => paths.map((path) => path.getAttribute('d').split('M').length - 1)"
    )
    assert squares == [45] * 36
    served = page.locator(".report-maps .report-served").evaluate_all(
        "paths => paths.reduce((sum, path) => sum + path.getAttribute('d').split('M').length - 1, 0)"
    )
    assert page.locator(".bb-lead").inner_text().startswith(f"{served} of 1620 kinds of head")
