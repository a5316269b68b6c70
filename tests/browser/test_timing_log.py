"""The timing log: minutes, checks and levels of this phone, without a name, gone when the day is over."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page
from tests.browser.conftest import PhoneAt, wait_for_timers
from tests.seeds import with_long

TECHNIQUE = "techniques/wide-foils/"  # at most 45 minutes, checked every 5
STORED = "() => Object.entries(localStorage).filter(([key]) => key.endsWith(':log')).map(([, text]) => text)"


@pytest.fixture
def page(phone_at: PhoneAt, small_address: str) -> Iterator[Page]:
    """A phone at ten in the morning, on a technique's page."""
    with phone_at(small_address + TECHNIQUE, "2026-11-25T10:00:00") as page:
        yield page


def a_timer(page: Page) -> None:
    """Begun at ten, checked at its fifth minute, rinsed at its ninth."""
    page.get_by_role("button", name="Start a timer").click()
    page.locator(".bb-timers-head").click()
    page.clock.fast_forward("05:10")
    page.clock.run_for(1000)
    page.get_by_role("button", name="Checked").click()
    page.clock.fast_forward("04:00")
    page.clock.run_for(1000)
    page.get_by_role("button", name="Rinsed").click()


def rows(page: Page) -> list[list[str]]:
    found = page.locator("#bb-log tbody tr").all()
    return [row.locator("td").all_inner_texts()[1:] for row in found]


def to_the_log(page: Page) -> None:
    if not page.locator(".bb-timers-list").is_visible():
        page.locator(".bb-timers-head").click()
    page.locator(".bb-timers-list").get_by_role("link", name="Timing log").click()
    page.wait_for_url("**/timing-log/")
    page.locator("#bb-log table").wait_for()


def test_each_tap_is_a_line_until_all_are_forgotten(page: Page) -> None:
    """Nothing can be typed into it; it prints its lines and no button; a level is added and taken back."""
    a_timer(page)
    to_the_log(page)
    assert rows(page) == [["0", "Begun"], ["5", "Checked"], ["9", "Rinsed"]]
    assert page.locator("#bb-log :is(input, textarea, [contenteditable])").count() == 0
    page.emulate_media(media="print")
    assert page.locator("#bb-log table").is_visible()
    assert page.locator("button:visible").count() == 0
    page.emulate_media(media="null")
    page.get_by_role("button", name="7", exact=True).click()
    page.get_by_role("button", name="springs back").click()
    assert [what for _, what in rows(page)][3:] == ["Level 7", "Wet strand springs back"]
    assert page.locator("#bb-log .bb-warning").count() == 0
    page.get_by_role("button", name="Take back the last line").click()
    assert [what for _, what in rows(page)][3:] == ["Level 7"]
    page.get_by_role("button", name="Forget it now").click()
    assert page.evaluate(STORED) == ["[]"]
    assert "Nothing was timed on this phone today" in page.locator("#bb-log").inner_text()


@pytest.mark.long
def test_a_rinse_taken_back_is_taken_out(page: Page) -> None:
    a_timer(page)
    page.get_by_role("button", name="Undo").click()
    to_the_log(page)
    assert rows(page) == [["0", "Begun"], ["5", "Checked"]]


@pytest.mark.parametrize("answer", with_long(["stays long"], ["breaks"]))
def test_a_strand_that_does_not_spring_back_is_a_stop(page: Page, answer: str) -> None:
    a_timer(page)
    to_the_log(page)
    page.get_by_role("button", name=answer).click()
    warning = page.locator("#bb-log .bb-warning")
    assert "No more lightener on this hair" in warning.inner_text()
    warning.get_by_role("link").click()
    page.wait_for_url("**/troubles/")


def test_it_is_gone_on_the_next_day_whatever_page_is_opened(page: Page, small_address: str) -> None:
    a_timer(page)
    page.clock.run_for(11_000)  # the rinsed timer is gone
    assert page.evaluate(STORED) != [] and page.evaluate(STORED) != ["[]"]
    page.clock.set_system_time("2026-11-26T00:00:10")
    page.goto(small_address)  # not even the log's own page
    wait_for_timers(page)
    page.clock.run_for(1000)
    assert page.evaluate(STORED) == ["[]"]


@pytest.mark.long
def test_a_service_past_midnight_keeps_its_lines_until_it_is_rinsed(page: Page, small_address: str) -> None:
    page.clock.set_system_time("2026-11-25T23:50:00")
    page.get_by_role("button", name="Start a timer").click()
    page.clock.set_system_time("2026-11-26T00:10:00")
    page.goto(small_address + "timing-log/")
    assert rows(page) == [["0", "Begun"]]


@pytest.mark.long
def test_what_stands_in_the_store_is_checked_before_it_is_shown(page: Page, small_address: str) -> None:
    a_timer(page)
    key = page.evaluate("Object.keys(localStorage).find(key => key.endsWith(':log'))")
    for text in ('"x"', "{", '[null, 7, {"at": "now"}]'):
        page.evaluate("([key, text]) => localStorage.setItem(key, text)", [key, text])
        page.goto(small_address + "timing-log/")
        page.locator("#bb-log p").wait_for()
        assert rows(page) == []
