"""What a first visit fetches: little, and nothing that the page has no use for yet."""

from pathlib import Path

import brotli
import pytest
from playwright.sync_api import BrowserContext, Page, expect

QUALITY = 5
"""Of Brotli: about what a host takes that compresses each answer; files compressed beforehand take 11."""


def fetched(page: Page, address: str, path: str) -> list[str]:
    """The files that a page asks for until nothing more is on its way."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.removeprefix(address).split("?")[0]))
    page.goto(address + path)
    page.wait_for_load_state("networkidle")
    return asked


def weight(site: Path, names: list[str]) -> int:
    """Bytes of some files of a site, compressed with Brotli each by itself."""
    files = {site / (name + "index.html" if not name or name.endswith("/") else name) for name in names}
    return sum(len(brotli.compress(file.read_bytes(), quality=QUALITY)) for file in files)


@pytest.mark.parametrize(
    ("path", "most"), [("", 30_000), ("blends/cool-foil-coarse/", 45_000), ("pick/", 55_000)]
)
def test_a_first_visit_is_light(
    phone: BrowserContext, address: str, demo_site: Path, path: str, most: int
) -> None:
    page = phone.new_page()
    names = fetched(page, address, path)
    if path == "pick/":  # with an answer: whatever that fetches counts
        for words in ("5", "coarse", "None of these"):
            page.locator("label, button", has_text=words).locator("visible=true").first.click()
        expect(page.locator("#bb-answer .bb-choice").first).to_be_visible()
        page.wait_for_load_state("networkidle")
    assert any(name.endswith(".css") for name in names)
    assert weight(demo_site, names) <= most


def test_a_phone_that_times_nothing_fetches_no_timers(phone: BrowserContext, small_address: str) -> None:
    first = phone.new_page()
    names = fetched(first, small_address, "")
    assert [name for name in names if "tim" in name.rsplit("/")[-1] or "sound" in name] == []
    second = phone.new_page()
    second.goto(small_address + "techniques/wide-foils/")
    second.get_by_role("button", name="Start a timer").click()
    expect(first.locator(".bb-timers-head")).to_be_visible()
