"""A phone of the middle of 2021: what it lacks is taken out of this browser, and work at the bench goes on.

Taken away: ``:has()``, ``::details-content``, popovers, dialogs, containers, ``:focus-visible``, ``Array.at``
and ``Object.hasOwn``, the wake lock, sharing, the clipboard. That Safari 14.1 and Chrome 91 lack them is from
memory of their release notes; tests/pages/test_script_age.py holds the scripts to the same.
"""

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import BrowserContext, Page, Route, expect
from tests.browser.conftest import Watched

TAKEN = """
for (const kind of [Array, String]) delete kind.prototype.at;
delete Object.hasOwn;
const without = (kind, ...names) => { for (const name of names) delete kind.prototype[name]; };
without(HTMLDialogElement, 'show', 'showModal', 'close', 'open');
without(HTMLElement, 'togglePopover', 'showPopover', 'hidePopover', 'popover');
without(Navigator, 'wakeLock', 'share', 'clipboard');
const supports = CSS.supports;
CSS.supports = (...asked) => !/::|:has/.test(asked[0]) && supports.apply(CSS, asked);
"""
LATER = re.compile(r":has\(|::details-content|:popover-open|:focus-visible|@container")


def without(route: Route) -> None:
    """A style sheet as such a phone reads it: a rule with a selector that it does not know is left out."""
    response = route.fetch()
    body = LATER.sub(lambda found: found[0].replace(found[0].strip(":@("), "x-unknown"), response.text())
    route.fulfill(response=response, body=body)


@pytest.fixture
def old_phone(phone: BrowserContext) -> Iterator[Watched]:
    phone.add_init_script(TAKEN)
    phone.route("**/*.css", without)
    watched = Watched(phone.new_page())
    yield watched
    assert watched.faults == []


def shown(page: Page, selector: str) -> int:
    return page.locator(f"{selector}:visible").count()


def test_a_bowl_on_an_older_phone(old_phone: Watched, small_address: str) -> None:
    page = old_phone.page
    page.goto(small_address + "blends/soft-clay/")
    assert page.evaluate("'at' in [] || 'showModal' in document.createElement('dialog')") is False
    expect(page.locator(".bb-panel:visible")).to_have_count(1)
    page.locator(".bb-size-label:visible").last.tap()
    chosen = page.locator(".bb-size:checked").get_attribute("id") or ""
    expect(page.locator(".bb-panel:visible")).to_have_id(chosen.removeprefix("size-"))
    page.locator("#bb-large").tap()
    field = page.locator(".bb-far-field b")
    figures = page.locator(".bb-panel:visible td.bb-shows").all_inner_texts()
    for figure in figures:
        expect(field).to_have_text(figure)
        box = page.locator(".bb-far").bounding_box()
        assert box is not None and (box["x"], box["y"], box["width"]) == (0, 0, 390) and box["height"] >= 844
        page.locator(".bb-far > button").first.tap(position={"x": 20, "y": 700})
    expect(page.locator(".bb-far")).to_have_count(0)
    page.locator("#bb-share").tap()
    expect(page.locator(".bb-bench-shared")).to_have_text("This phone lets nothing be copied here.")


@pytest.mark.long
def test_steps_timer_and_service_on_an_older_phone(old_phone: Watched, small_address: str) -> None:
    page = old_phone.page
    page.goto(small_address + "techniques/wide-foils/")
    page.locator("#bb-one-step").tap()
    page.get_by_role("button", name="Start timer").tap()
    expect(page.locator(".bb-turn")).to_contain_text("Check in")
    page.keyboard.press("Escape")
    expect(page.locator(".bb-screens")).to_have_count(0)
    expect(page.locator(".bb-timers-head")).to_be_visible()
    page.goto(small_address + "techniques/painting/service/")
    sheets = page.locator(".bb-sheet")
    assert shown(page, ".bb-sheet") == sheets.count() > 1 and shown(page, ".bb-service .bb-facet") == 0


@pytest.mark.long
def test_search_pick_contents_and_try_on_an_older_phone(old_phone: Watched, small_address: str) -> None:
    page = old_phone.page
    page.goto(small_address)
    for _ in range(2):
        page.get_by_role("button", name="Search").tap()
        page.get_by_label("Search the book").fill("soft clay")
        expect(page.locator(".bb-search-list a").first).to_contain_text("Soft clay")
        page.keyboard.press("Escape")
        expect(page.locator(".bb-search")).to_be_hidden()
    page.get_by_role("button", name="Contents").tap()
    expect(page.locator("#bb-menu a").first).to_be_in_viewport()
    page.goto(small_address + "pick/?natural_level=7&texture=fine")
    page.locator("#bb-none").tap()
    expect(page.locator("#bb-first a").first).to_be_visible()
    page.goto(small_address + "try/")
    expect(page.locator("#try")).to_be_visible()
