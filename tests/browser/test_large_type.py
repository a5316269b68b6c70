"""Text at twice its size on a phone 390 px wide: what the scale must show is never cut off.

Source: WCAG 2.2, SC 1.4.4 (text up to 200 %) and 1.4.10 (no scrolling in two directions). A browser that is
zoomed to 200 % lays a page out on half the width, as here.
"""

import pytest
from tests.browser.conftest import Watched
from tests.seeds import with_long

WIDTH = 195
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
