"""Text at twice its size on a phone 390 px wide: what the scale must show is never cut off.

Source: WCAG 2.2, SC 1.4.4 (text up to 200 %) and 1.4.10 (no scrolling in two directions). A browser that is
zoomed to 200 % lays a page out on half the width, as here.
"""

import pytest
from tests.browser.conftest import Watched
from tests.seeds import with_long

WIDTH = 195
NARROW = 160
CUT_OFF = """(width) => [...document.querySelectorAll('.bb-shows, .bb-weigh, .bb-stand-in :is(th, td)')]
  .filter(e => e.checkVisibility() && e.getBoundingClientRect().right > width)
  .map(e => e.textContent.trim())"""
SIDEWAYS = "document.documentElement.scrollWidth"


@pytest.mark.parametrize(
    "path",
    with_long(
        ["techniques/painting/service/"],
        ["blends/violet/", "techniques/wide-foils/", "classes/first-painting/", "pick/"],
    ),
)
def test_no_figure_is_cut_off(watched: Watched, small_address: str, path: str) -> None:
    page = watched.page
    page.set_viewport_size({"width": WIDTH, "height": 422})
    page.goto(small_address + path)
    assert page.evaluate(CUT_OFF, WIDTH) == []
    assert page.evaluate(SIDEWAYS) <= WIDTH


BROKEN = """(codes) => [...document.querySelectorAll(codes)].flatMap(code =>
  [...code.textContent.matchAll(/[^-]+-?/g)].filter(({ 0: part, index }) => {
    const range = document.createRange();
    range.setStart(code.firstChild, index);
    range.setEnd(code.firstChild, index + part.length);
    return range.getClientRects().length > 1;
  }).map(([part]) => part))"""


def test_a_findings_code_breaks_only_behind_a_hyphen(watched: Watched, small_address: str) -> None:
    """At 320 px and 200 %: on the page of the code with the longest word, and in the list of all."""
    page = watched.page
    page.set_viewport_size({"width": NARROW, "height": 320})
    page.goto(f"{small_address}reference/findings/contradictory-suits/")
    assert page.evaluate(BROKEN, "h1 > code") == []
    page.goto(f"{small_address}reference/findings/")
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
    assert page.evaluate(BROKEN, ".bb-codes code") == []


@pytest.mark.parametrize("width", [NARROW, WIDTH])
def test_the_strand_slip_fits(watched: Watched, small_address: str, width: int) -> None:
    page = watched.page
    page.set_viewport_size({"width": width, "height": 422})
    page.goto(small_address + "blends/violet/strand-test/")
    assert page.evaluate(CUT_OFF.replace(".bb-shows", ".bb-slip-bowl :is(th, td), .bb-shows"), width) == []
    assert page.evaluate(SIDEWAYS) <= width
