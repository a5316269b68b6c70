"""What a first visit fetches: little, and nothing that the page has no use for yet."""

from functools import cache
from pathlib import Path

import brotli
import pytest
from playwright.sync_api import BrowserContext, Page, expect
from tests.seeds import rows_with_long

QUALITY = 11
"""Of Brotli, its own default: of a host that compresses files beforehand. One that compresses each answer
takes 4 or 5, and sends a tenth more."""


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
    return sum(map(compressed, files))


@cache
def compressed(file: Path) -> int:
    """Bytes of a file, compressed."""
    return len(brotli.compress(file.read_bytes(), quality=QUALITY))


@pytest.mark.parametrize(
    ("path", "most"),
    rows_with_long([("pick/", 50_000)], [("", 25_000), ("blends/cool-foil-coarse/", 42_000)]),
)
def test_a_first_visit_is_light(
    phone: BrowserContext, address: str, demo_site: Path, path: str, most: int
) -> None:
    page = phone.new_page()
    names = fetched(page, address, path)
    assert any(name.endswith(".css") for name in names)
    assert weight(demo_site, names) <= most
    if path == "pick/":  # its first answer fetches more
        for words in ("5", "coarse", "None of these"):
            page.locator("label, button", has_text=words).locator("visible=true").first.click()
        expect(page.locator("#bb-answer .bb-choice").first).to_be_visible()
        page.wait_for_load_state("networkidle")
        assert weight(demo_site, names) <= most + 5_000


@pytest.mark.long
def test_a_phone_that_times_nothing_fetches_no_timers(phone: BrowserContext, small_address: str) -> None:
    first = phone.new_page()
    names = fetched(first, small_address, "")
    assert [name for name in names if "tim" in name.rsplit("/")[-1] or "sound" in name] == []
    second = phone.new_page()
    second.goto(small_address + "techniques/wide-foils/")
    second.get_by_role("button", name="Start a timer").click()
    expect(first.locator(".bb-timers-head")).to_be_visible()


@pytest.mark.long
def test_the_tools_of_a_blend_have_their_room_before_they_arrive(
    phone: BrowserContext, small_address: str
) -> None:
    """What is below them moves by the one fold that they replace, and no further."""
    tops = []
    for arrives in (False, True):
        page = phone.new_page()
        if not arrives:
            page.route("**/bench.js", lambda route: route.abort())
        page.goto(small_address + "blends/violet/")
        tools = page.locator("#bb-bench")
        expect(tools).to_be_visible(visible=arrives)
        replaced = page.locator(".bb-overs").locator("visible=true")
        heights = [each.evaluate("each => each.getBoundingClientRect().height") for each in replaced.all()]
        assert len(heights) == (not arrives)
        top = page.locator(".bb-reasons").evaluate("each => each.getBoundingClientRect().top")
        tops.append(top - sum(heights))
    assert tops[0] == tops[1]
