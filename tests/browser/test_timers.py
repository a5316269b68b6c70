"""Timers: several at once, through a reload and a phone that slept, telling the time that passed."""

from playwright.sync_api import Page

from tests.browser.conftest import Watched

TECHNIQUE = "techniques/triangle-in-two-foils/"  # at most 45 minutes, checked every 5


def start(page: Page) -> None:
    page.get_by_role("button", name="Start a timer").click()


def test_several_through_a_reload(watched: Watched, address: str) -> None:
    page = watched.page
    page.clock.install(time="2026-11-25T10:00:00")
    page.goto(address + TECHNIQUE)
    start(page)
    page.clock.fast_forward("02:00")
    start(page)
    rows = page.locator(".bb-timers li")
    assert rows.locator("strong").all_inner_texts() == ["Triangle in two foils", "Triangle in two foils 2"]
    page.clock.run_for(3000)
    first, second = rows.locator(".bb-passed").all_inner_texts()
    assert first in ("02:02", "02:03") and second in ("00:02", "00:03")
    page.reload()
    page.clock.run_for(1000)
    assert rows.count() == 2  # and on every other page too
    page.goto(address + "blends/cool-foil-coarse/")
    assert page.locator(".bb-timers summary").inner_text().startswith("02:0")
    assert watched.faults == []


def test_a_phone_that_slept_tells_the_time_that_passed(watched: Watched, address: str) -> None:
    """The clock jumps as it does for a locked phone: no tick ran, and the time is told all the same."""
    page = watched.page
    page.clock.install(time="2026-11-25T10:00:00")
    page.goto(address + TECHNIQUE)
    start(page)
    row = page.locator(".bb-timers li").first
    page.clock.fast_forward("06:30")
    page.clock.run_for(1000)
    assert row.locator(".bb-passed").inner_text() == "06:31"
    assert row.locator(".bb-says").inner_text() == "Check now; due 01:31 ago."
    assert "look at it now" in page.locator(".bb-timers [role=status]").inner_text()
    row.get_by_role("button", name="Checked").click()
    assert row.locator(".bb-says").inner_text().startswith("Next check in 03:2")
    page.clock.fast_forward("40:00")
    page.clock.run_for(1000)
    assert "Longest time reached" in row.locator(".bb-says").inner_text()
    row.get_by_role("button", name="Rinsed").click()
    assert not page.locator(".bb-timers").is_visible()


def test_a_clock_that_was_set_back_is_said(watched: Watched, address: str) -> None:
    page = watched.page
    page.goto(address + TECHNIQUE)
    start(page)
    page.evaluate(
        "() => { const key = Object.keys(localStorage).find(name => name.endsWith(':timers'));"
        "const all = JSON.parse(localStorage[key]); all[0].began += 3600000;"
        "localStorage[key] = JSON.stringify(all); }"
    )
    page.reload()
    assert "clock was set back" in page.locator(".bb-timers .bb-says").inner_text()
