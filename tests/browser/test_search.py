"""A real search in a real browser on a phone: every way by which the floor would look for an entry."""

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Watched

SEARCHES = [
    ("coarse level 4", "situations/coarse-level-4-cool/"),
    ("bleach", "products/"),
    ("peroxide", "products/"),
    ("painting", "techniques/"),
    ("highlights", "techniques/"),
    ("fine", "blends/"),
    ("cool", "blends/"),
    ("hairline", "blends/"),
    ("roots", "techniques/"),
    ("level 9", "heads/natural-level-9/"),
    ("20 volume", "products/"),
    ("violet clay", "blends/"),
]


def results(page: Page, query: str) -> list[str]:
    page.locator("label.md-header__button[for=__search]").tap()
    field = page.locator(".md-search__input")
    field.press_sequentially(query)
    page.wait_for_function(
        "() => /result|document|match/i.test(document.querySelector('.md-search-result__meta').textContent)"
    )
    page.wait_for_timeout(300)
    return page.evaluate(
        "() => [...document.querySelectorAll('.md-search-result__link')].map(a => a.getAttribute('href'))"
    )


@pytest.mark.parametrize(("query", "wanted"), SEARCHES)
def test_search_finds(watched: Watched, address: str, query: str, wanted: str) -> None:
    watched.page.goto(address)
    found = results(watched.page, query)
    assert any(f"/{wanted}" in href for href in found), found


def test_search_finds_every_entry_by_its_name(watched: Watched, address: str, demo_book) -> None:
    """Through the search box for one of each kind, so that it stays quick; the index is checked in full."""
    watched.page.goto(address)
    for kind, folder in (("blend", "blends"), ("technique", "techniques"), ("product", "products")):
        entry = next(iter(demo_book.of_kind(kind).values()))
        found = results(watched.page, entry.name)
        assert any(f"/{folder}/{entry.id}/" in href for href in found[:5]), (entry.name, found[:5])
        watched.page.locator(".md-search__form button[type=reset]").click()
        watched.page.keyboard.press("Escape")
    assert watched.faults == []
