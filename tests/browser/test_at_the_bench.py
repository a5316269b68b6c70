"""At the bench: the whole table on the first screen, figures as large as the screen, steps one a screen."""

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import PHONE
from tests.browser.shared_pages import Open

BLEND = "blends/cool-foil-coarse/"


@pytest.mark.long
@pytest.mark.parametrize("size", [(360, 640), (390, 844), (844, 390)])
def test_the_whole_table_stands_on_the_first_screen(open_page: Open, address: str, demo_site, size) -> None:
    page = open_page({"width": size[0], "height": size[1]})
    below = []
    texts = {path: path.read_text(encoding="utf-8") for path in (demo_site / "blends").glob("*/index.html")}
    mixed = [path for path, text in texts.items() if "bb-weighing" in text]  # not retired, nor moved
    for path in mixed:
        page.goto(f"{address}blends/{path.parent.name}/")
        end = page.evaluate(
            "() => document.querySelector('.bb-panel.bb-now .bb-result').getBoundingClientRect().bottom"
            " - document.querySelector('.bb-thumb').getBoundingClientRect().top"
        )
        if end > 0:
            below.append((path.parent.name, round(end)))
    assert below == []


@pytest.mark.long
def test_a_blend_is_short_with_its_folds_shut(open_page: Open, address: str) -> None:
    page = open_page(PHONE, address + BLEND)
    assert page.evaluate("document.documentElement.scrollHeight") <= 2500


@pytest.mark.long
def test_a_drawing_stands_beside_its_step(open_page: Open, address: str) -> None:
    page = open_page(PHONE, address + "techniques/triangle-in-two-foils/")
    words, drawings = page.locator(".bb-drawn > p"), page.locator(".bb-drawn svg")
    expect(drawings).to_have_count(4)
    for said, drawn in zip(words.all(), drawings.all(), strict=True):
        of_words, of_drawing = said.bounding_box(), drawn.bounding_box()
        assert of_words is not None and of_drawing is not None
        assert of_drawing["x"] >= of_words["x"] + of_words["width"]
        assert min(of_drawing["width"], of_drawing["height"]) >= 70
    assert page.evaluate("document.documentElement.scrollHeight") <= 3700
    unseen = "all => all.filter(each => getComputedStyle(each).display === 'none').length"
    lines = page.locator(".bb-strand path")
    assert lines.count() > 0 and lines.evaluate_all(unseen) == 0


def test_large_figures_go_on_with_a_tap_anywhere(open_page: Open, address: str) -> None:
    page = open_page(PHONE, address + BLEND)
    page.locator("#bb-large").click()
    seen = []
    for _ in range(3):
        seen.append(page.locator(".bb-far-field b").inner_text())
        page.locator(".bb-far > button").first.click(position={"x": 20, "y": 700})
    assert seen == ["0.33", "0.50", "1.50"]
    expect(page.locator(".bb-far")).to_have_count(0)  # a dialog says that it closed in a task of its own


def test_the_last_size_is_remembered(open_page: Open, address: str) -> None:
    page = open_page(PHONE, address + BLEND)
    page.locator(".bb-size-label[for=size-oz-2-00]").click()
    page.goto(address + "blends/hairline-gentle/")
    assert page.locator(".bb-size:checked").get_attribute("id") == "size-oz-2-00"


@pytest.mark.long
def test_steps_one_a_screen(open_page: Open, address: str, demo_book) -> None:
    technique = demo_book.techniques["triangle-in-two-foils"]
    page = open_page({"width": 360, "height": 500}, address + "techniques/triangle-in-two-foils/")
    page.locator("#bb-one-step").click()
    page.locator(".bb-screen[tabindex]").focus()  # a browser of 2021 needs it said
    page.keyboard.press("End")
    page.wait_for_function("() => document.querySelector('.bb-screen').scrollTop > 0")
    for step in technique.steps:
        assert step in page.locator(".bb-screen").inner_text()
        assert page.locator(".bb-screen .bb-readings").count() == len(technique.bowls)
        page.get_by_role("button", name="Next").click()
    page.get_by_role("button", name="Start timer").click()
    page.locator(".bb-turn", has_text="Check in").wait_for()
    assert technique.processing.stop_when in page.locator(".bb-screen").inner_text()
    page.keyboard.press("Escape")
    assert page.evaluate("document.activeElement.id") == "bb-one-step"
