"""A shared page carries nothing from one test to the next."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Page
from tests.browser.conftest import DESK, PHONE
from tests.browser.shared_pages import SharedPages

LOOK = "[matchMedia('print').matches, matchMedia('(prefers-color-scheme: dark)').matches, innerWidth]"


def test_storage_and_emulation_are_taken_back(browser: Browser, address: str, small_address: str) -> None:
    """In every origin that was visited, not only in the last."""
    shared = SharedPages(browser)
    page = shared.open(PHONE, color_scheme="dark")
    for site in (address, small_address):
        page.goto(site)
        page.evaluate("localStorage.left = 'behind'; sessionStorage.left = 'behind'")
    page.emulate_media(media="print")
    shared.clear()
    assert shared.open(DESK) is page
    for site in (address, small_address):
        page.goto(site)
        assert page.evaluate("[localStorage.left, sessionStorage.left]") == [None, None]
        assert page.evaluate(LOOK) == [False, False, DESK["width"]]
    page.context.close()


@pytest.mark.parametrize(
    "add",
    [
        lambda page: page.add_init_script("1"),
        lambda page: page.context.add_init_script("1"),
        lambda page: page.clock.install(),
        lambda page: page.context.clock.install(),
    ],
    ids=["script", "script of its context", "clock", "clock of its context"],
)
def test_what_cannot_be_taken_back_is_refused(shared_pages: SharedPages, add: Callable[[Page], None]) -> None:
    with pytest.raises(AssertionError, match="shared by many tests"):
        add(shared_pages.open(PHONE))
