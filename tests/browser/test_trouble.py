"""When it goes wrong, on a phone: two taps from any page, found by what somebody calls out, never covered."""

import pytest
from playwright.sync_api import Page
from tests.browser.conftest import DESK, Watched
from tests.browser.shared_pages import Open
from tests.seeds import with_long

WORDS = [
    ("burning", "troubles/burning-scalp/"),
    ("itching", "troubles/burning-scalp/"),
    ("hot foil", "troubles/hot-foil/"),
    ("swelling foil", "troubles/hot-foil/"),
    ("eye", "troubles/mix-in-the-eye/"),
    ("allergic", "troubles/trouble-breathing/"),
    ("banding", "troubles/banding/"),
    ("brassy", "troubles/too-warm/"),
    ("breakage", "troubles/breakage/"),
    ("violet grey", "troubles/too-grey/"),
    ("fizzes", "troubles/swelling-bowl/"),
]


def test_what_somebody_would_call_out_is_found_first(watched: Watched, address: str) -> None:
    page = watched.opened(address)
    page.get_by_role("button", name="Search").tap()
    field = page.get_by_label("Search the book")
    for query, wanted in WORDS:
        field.fill(query)
        first = page.locator(".bb-search-list a").first
        page.wait_for_function(
            "wanted => document.querySelector('.bb-search-list a')?.href.endsWith(wanted)", arg=f"/{wanted}"
        )
        assert first.evaluate("link => link.href").endswith(f"/{wanted}"), query


@pytest.mark.parametrize(
    "start",
    with_long(
        ["blends/foil-clear/"], ["", "techniques/bold-weave/", "reference/write/", "situations/porous-ends/"]
    ),
)
def test_two_taps_from_anywhere(watched: Watched, address: str, start: str) -> None:
    page = watched.opened(address + start)
    page.get_by_role("navigation", name="Always at hand").get_by_role("link", name="Trouble").tap()
    page.locator("main").get_by_role("link", name="Mix in the eye").tap()
    page.wait_for_url("**/troubles/mix-in-the-eye/")
    box = page.get_by_role("heading", name="Now", exact=True).bounding_box()
    assert box is not None and box["y"] < 500  # what to do is on the first screen


def begin_a_timer(page: Page, address: str) -> None:
    page.goto(address + "techniques/bold-weave/")
    page.get_by_role("button", name="Start a timer").click()
    page.locator(".bb-timers-head").wait_for()


@pytest.mark.long
@pytest.mark.parametrize("width, height", [(360, 640), (390, 844)])
def test_a_running_timer_leaves_trouble_in_its_place(
    open_page: Open, address: str, width: int, height: int
) -> None:
    page = open_page({"width": width, "height": height})
    begin_a_timer(page, address)
    thumb = page.locator(".bb-thumb").bounding_box()
    head = page.locator(".bb-timers-head").bounding_box()
    trouble = page.locator(".bb-thumb").get_by_role("link", name="Trouble").bounding_box()
    assert thumb is not None and head is not None and trouble is not None
    assert thumb["y"] + thumb["height"] == height and thumb["width"] == width
    assert head["x"] == 0 and head["x"] + head["width"] <= trouble["x"] + 1
    assert trouble["width"] >= 44 and trouble["height"] >= 44
    page.locator(".bb-timers-head").click()
    listed = page.locator(".bb-timers-list").bounding_box()
    assert listed is not None and listed["width"] == width
    page.locator(".bb-timers-list").get_by_role("link", name="If it goes wrong").click()
    page.wait_for_url("**/troubles/")


@pytest.mark.long
@pytest.mark.parametrize("width, height", [(360, 640), (390, 844)])
def test_the_foot_of_a_page_is_not_under_the_thumbs_row(
    open_page: Open, address: str, width: int, height: int
) -> None:
    page = open_page({"width": width, "height": height}, address + "troubles/burning-scalp/")
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    last = page.locator(".bb-footer p").last.bounding_box()
    row = page.locator(".bb-thumb").bounding_box()
    assert last is not None and row is not None
    assert last["y"] + last["height"] <= row["y"]
    assert page.evaluate("document.documentElement.scrollWidth") == width


@pytest.mark.long
def test_at_a_desk_the_header_has_it(open_page: Open, address: str) -> None:
    page = open_page(DESK, address + "blends/foil-clear/")
    assert not page.locator(".bb-thumb").is_visible()
    page.locator("header").get_by_role("link", name="Trouble").click()
    page.wait_for_url("**/troubles/")


def test_the_number_is_dialled_and_printed(open_page: Open, address: str) -> None:
    page = open_page(DESK, address + "troubles/trouble-breathing/")
    call = page.get_by_role("link", name="Call 911 (Canada)")
    assert call.get_attribute("href") == "tel:911"
    page.emulate_media(media="print")
    assert call.is_visible()
    assert not page.locator(".bb-thumb").is_visible()
