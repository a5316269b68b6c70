"""A real search in a real browser on a phone: every way by which the floor would look for an entry."""

import os

from playwright.sync_api import Page
from tests.browser.conftest import DESK, Watched
from tests.browser.shared_pages import Open

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
    ("balayage", "techniques/"),
    ("bleech", "products/"),  # a letter wrong
    ("peroxde", "products/"),  # a letter missing
    ("hairlien", "blends/"),  # two swapped
    ("tonner", "products/"),  # one too many
    ("tone smo", "blends/smoke-gloss/"),  # half a word
    ("underlying", "glossary/"),  # a page written by hand
]


ALL_SHOWN = """() => {
  const count = parseInt(document.querySelector('.bb-search-said').textContent) || 0;
  return document.querySelectorAll('.bb-search-list a').length >= Math.min(count, 30);
}"""


def results(page: Page, query: str) -> list[str]:
    if not page.locator("dialog.bb-search[open]").count():
        page.get_by_role("button", name="Search").tap()
    field = page.get_by_label("Search the book")
    field.fill(query)
    page.wait_for_function("() => /entr|Nothing/.test(document.querySelector('.bb-search-said').textContent)")
    page.wait_for_function(ALL_SHOWN)  # the first ones are shown at once, the others a moment later
    return page.evaluate("() => [...document.querySelectorAll('.bb-search-list a')].map(a => a.href)")


def test_search_finds(watched: Watched, address: str) -> None:
    watched.page.goto(address)
    for query, wanted in SEARCHES:
        found = results(watched.page, query)
        assert any(f"/{wanted}" in href for href in found), (query, found)


def test_search_finds_every_entry_by_its_name(watched: Watched, address: str, demo_book) -> None:
    """Every entry of every kind stands first, or among those of the same name."""
    watched.page.goto(address)
    results(watched.page, "clay")
    from bowlbook.book.folder import FOLDER_OF

    for kind, entry in demo_book.entries()[:: 1 if os.environ.get("BOWLBOOK_LONG") else 4]:
        found = results(watched.page, entry.name)
        assert f"{address}{FOLDER_OF[kind]}/{entry.id}/" in found[:3], (entry.name, found[:3])
    assert watched.faults == []


def test_nothing_found_is_said(watched: Watched, address: str) -> None:
    watched.page.goto(address)
    assert results(watched.page, "zzzzqqq") == []
    assert "Nothing in the book" in watched.page.locator(".bb-search-said").inner_text()


def test_by_keyboard_alone(open_page: Open, address: str) -> None:
    page = open_page(DESK)
    page.goto(address)
    page.keyboard.press("/")
    page.locator("dialog.bb-search[open]").wait_for()
    page.keyboard.type("cool foil coarse")
    page.locator(".bb-search-list a").first.wait_for()
    page.keyboard.press("ArrowDown")
    assert page.evaluate("document.activeElement.href").endswith("/blends/cool-foil-coarse/")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Escape")  # takes back what was typed
    page.keyboard.press("Escape")
    assert not page.locator("dialog.bb-search").is_visible()
    page.keyboard.press("/")
    page.locator("dialog.bb-search[open]").wait_for()
    page.keyboard.type("cool foil coarse")
    page.locator(".bb-search-list a").first.wait_for()
    page.keyboard.press("Enter")
    page.wait_for_url("**/blends/cool-foil-coarse/")


def test_words_in_python_and_on_the_phone_are_the_same(watched: Watched, address: str, asset_address) -> None:
    from bowlbook.pages.search_index import words_of

    texts = ["Crème fraîche, 20 volume", "l'été", "Größe 4-6", "a_b c·d", "Ⅳ ½ x²", "日本 語", "  "]
    watched.page.goto(address)
    ask = "async ([folder, texts]) => texts.map((await import(folder + 'search.js')).wordsOf)"
    assert watched.page.evaluate(ask, [asset_address, texts]) == [list(words_of(text)) for text in texts]
