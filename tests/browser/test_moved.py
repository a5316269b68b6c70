"""A renamed entry: its old address leads to it, without scripts, and without a network."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, expect
from tests.browser.conftest import PHONE, served
from tests.browser.test_offline import Host, host, visit, visitor

__all__ = ["host", "visitor"]

RENAMED = "blends/hairline-cream/"
"""The former address of a blend of the demo book; its cards carried it as a code."""


@pytest.fixture(scope="module")
def name(demo_book) -> str:
    return next(each.name for each in demo_book.blends.values() if "hairline-cream" in each.formerly)


@pytest.mark.parametrize("scripts, below", [(True, ""), (False, "card/")], ids=["with scripts", "without"])
def test_the_old_address_leads_to_the_entry(
    browser: Browser, demo_site: Path, name: str, below: str, scripts: bool
) -> None:
    context = browser.new_context(viewport=PHONE, java_script_enabled=scripts, service_workers="block")
    with served(demo_site) as address:
        page = context.new_page()
        page.goto(address + RENAMED + below)
        page.wait_for_url(f"**/blends/hairline-gentle/{below}")
        expect(page.locator("h1").first).to_contain_text(name)
    context.close()


@pytest.mark.long
def test_without_a_network(visitor: BrowserContext, host: Host, name: str) -> None:
    visit(visitor, host).wait_for_timeout(0)
    host.close()
    page = visitor.new_page()
    page.goto(host.address + RENAMED)
    page.wait_for_url("**/blends/hairline-gentle/")
    expect(page.locator("h1").first).to_have_text(name)
