"""One size rules a blend's page: its table, the sizes to tap, Any amount, the unit and the developer."""

import pytest
from playwright.sync_api import Page
from tests.browser.bench_site import OUTSIDE, shown
from tests.browser.conftest import PHONE
from tests.browser.shared_pages import Open


@pytest.fixture
def page(open_page: Open, bench_address: str) -> Page:
    """3:1 at 1:2, sizes 1 and 2 oz, 20 and 40 g, on steps of 0.05 oz and 1 g."""
    page = open_page(PHONE, f"{bench_address}blends/soft-clay/")
    page.locator("#bb-any > summary").click()
    return page


def checked(page: Page) -> list[str | None]:
    return page.locator(".bb-size:checked").evaluate_all("all => all.map(e => e.id)")


def says(page: Page) -> str:
    return page.locator(".bb-panel:visible").inner_text()


TYPED = {
    "15g": ("g", ["11", "15", "45"]),
    "15 grams": ("g", ["11", "15", "45"]),
    "0.75": ("g", []),  # without a unit it is in the one chosen: three quarters of a gram cannot be weighed
    "12.7 g": ("g", ["10", "13", "39"]),
    "0.75 oz": ("oz", ["0.55", "0.75", "2.25"]),
    ".75": ("oz", ["0.55", "0.75", "2.25"]),
    "0,75": ("oz", ["0.55", "0.75", "2.25"]),
    "2OZ": ("oz", ["1.50", "2.00", "6.00"]),
}
"""What is typed, one after the other, its unit and readings. By hand: 3:1 by largest remainder, at 1:2."""


def test_a_typed_unit_rules(page: Page) -> None:
    for typed, (unit, readings) in TYPED.items():
        page.locator("#bench-batch").fill(typed)
        assert shown(page) == readings, typed
        assert page.locator("[name=bench-unit]:checked").get_attribute("value") == unit, typed
        assert page.locator("#bench-step").input_value() == {"oz": "0.05", "g": "1"}[unit], typed
        if readings:
            assert page.locator(".bb-panel:visible thead span").first.inner_text() == unit, typed


UNCERTAIN = {
    "": "Type a weight above zero",
    "0": "Type a weight above zero",
    "-1": "Type a weight above zero",
    "two": "Type a weight above zero",
    "1,250": "Type a weight above zero",
    "1e3": "Type a weight above zero",
    "½ oz": "Write ½ as 0.5",
    "1/2 oz": "Write ½ as 0.5",
    "2 fl oz": "“fl oz” is not read here. That is a volume.",
    "30 ml": "“ml” is not read here. That is a volume.",
    "1 lb": "“lb” is not read here.",
    "99999": "more than any bowl on this scale",
}


def test_what_is_not_certain_shows_no_figure(page: Page) -> None:
    for typed, sentence in UNCERTAIN.items():
        page.locator("#bench-batch").fill(typed)
        assert sentence in says(page), typed
        assert shown(page) == [], typed
        assert checked(page) == [], typed
        assert sentence in page.locator(".bb-bench-says .bb-warning").inner_text()
        assert not page.locator("#bb-added").is_visible()
        page.locator("#bench-batch").fill("1")
        assert shown(page) == ["0.75", "1.00", "3.00"]


def test_a_batch_that_fits_no_bowl_is_asked_about(page: Page) -> None:
    page.locator("#bench-batch").fill("20 oz")
    assert shown(page) == []
    assert "Really 20 oz (567 g) of lightener? It is more than fits one bowl." in says(page)
    page.locator(".bb-panel:visible").get_by_role("button", name="Yes, show it").click()
    assert shown(page) == ["15.00", "20.00", "60.00"]
    page.locator("#bench-batch").fill("21 oz")  # another size is another question
    assert shown(page) == []
    page.locator("#bench-batch").fill("500 g")
    assert shown(page) == ["375", "500", "1500"]


def test_sizes_unit_step_and_developer_are_one_bowl(page: Page, bench_address: str) -> None:
    assert checked(page) == ["size-oz-1-00"]
    page.locator("#bench-batch").fill("0.6")
    assert checked(page) == []
    assert shown(page) == ["0.45", "0.60", "1.80"]
    page.locator(".bb-size-label[for=size-oz-2-00]").click()
    assert page.locator("#bench-batch").input_value() == "2.00"
    assert shown(page) == ["1.50", "2.00", "6.00"]
    page.locator("label[for=bench-g]").click()  # the second size in ounces is the second in grams
    assert checked(page) == ["size-g-40"]
    assert page.locator("#bench-batch").input_value() == "40"
    assert shown(page) == ["30", "40", "120"]
    page.locator("#bench-step").fill("0.1")
    assert checked(page) == ["size-g-40"]
    assert shown(page) == ["30.0", "40.0", "120.0"]
    page.locator("#bench-step").fill("0.1 oz")
    assert "type the step in g" in says(page)
    page.goto(f"{bench_address}blends/bonded/")
    page.locator("#bb-any > summary").click()
    assert page.locator("#bench-g").is_checked()  # the scale is remembered
    assert page.locator("#bench-step").input_value() == "0.1"
    page.locator("#bench-developer").select_option("developer-40")
    assert "Strong cream (40 volume)" in says(page)
    assert "6.86 %" in says(page)  # 12 % of 30 g in 52.5 g; the additive is 2.5 g
    page.locator("#bb-added > summary").click()
    assert "Strong cream (40 volume)" in page.locator("#bb-added").inner_text()


def test_an_additive_over_its_dose_is_said(page: Page, bench_address: str) -> None:
    page.goto(f"{bench_address}blends/bonded/")
    page.locator("#bb-any > summary").click()
    page.locator("#bench-batch").fill("4 g")
    assert "1 g of Bond drops is over its maker’s dose, 0.5 g." in says(page)
    assert "it is 100.0 % off the recipe" in says(page)
    assert "Nearest size this scale can weigh: 8 g." in says(page)


def test_a_reading_of_zero(page: Page) -> None:
    page.locator("#bench-batch").fill("0.1")
    assert shown(page) == []
    assert "read zero for Violet powder. Nearest size this scale can weigh: 0.20 oz." in says(page)


@pytest.mark.long
@pytest.mark.parametrize("width", [320, 360, 390])
def test_nothing_is_cut_off(page: Page, bench_address: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 640})
    page.goto(f"{bench_address}blends/everything/")
    page.evaluate("for (const each of document.querySelectorAll('#bb-bench details')) each.open = true")
    for typed in ("123.45 oz", "3 oz", "0.3 oz"):
        page.locator("#bench-batch").fill(typed)
        page.evaluate("document.querySelector('.bb-bench-says .bb-button')?.click()")
        assert page.evaluate(OUTSIDE) == [], typed
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
