"""A real search in a real browser on a phone; what people type is judged in ``test_search_queries.py``."""

import pytest
from playwright.sync_api import Page
from tests.browser.conftest import DESK, Watched
from tests.browser.shared_pages import Open

SEARCHES = [
    ("roots", "techniques/"),
    ("violet clay", "blends/"),
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


@pytest.mark.long
def test_search_finds_every_entry_by_its_name(watched: Watched, address: str, demo_book) -> None:
    """Every entry of every kind stands first, or among those of the same name."""
    watched.page.goto(address)
    results(watched.page, "clay")
    from bowlbook.book.folder import FOLDER_OF

    for kind, entry in demo_book.entries():
        found = results(watched.page, entry.name)
        assert f"{address}{FOLDER_OF[kind]}/{entry.id}/" in found[:3], (entry.name, found[:3])
    assert watched.faults == []


BROKEN = """name => { const text = name.firstChild, line = document.createRange();
  return [...text.data.matchAll(/[\\w]{2,}/g)].filter(({ 0: word, index }) => {
    line.setStart(text, index);
    line.setEnd(text, index + word.length);
    return line.getClientRects().length > 1;
  }).length; }"""


@pytest.mark.long
def test_no_word_is_broken_in_very_large_type(open_page: Open, address: str) -> None:
    """Text at twice its size on a phone 390 px wide (WCAG 2.2, SC 1.4.4)."""
    page = open_page({"width": 195, "height": 422}, address + "#search")
    page.get_by_label("Search the book").fill("brassy")
    page.locator(".bb-search-list a").nth(3).wait_for()
    for name in page.locator(".bb-link-name").all()[:4]:
        assert name.evaluate(BROKEN) == 0, name.inner_text()
    assert page.evaluate("document.querySelector('dialog').scrollWidth <= innerWidth")


@pytest.mark.long
def test_by_keyboard_alone(open_page: Open, address: str) -> None:
    page = open_page(DESK, address)
    page.keyboard.press("/")
    page.locator("dialog.bb-search[open]").wait_for()
    page.keyboard.type("oat glos")
    page.locator(".bb-search-list a").first.wait_for()
    page.keyboard.press("ArrowDown")
    assert page.evaluate("document.activeElement.href").endswith("/blends/oat-gloss/")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Escape")  # takes back what was typed
    page.keyboard.press("Escape")
    assert not page.locator("dialog.bb-search").is_visible()
    page.keyboard.press("/")
    page.locator("dialog.bb-search[open]").wait_for()
    page.keyboard.type("oat glos")
    page.locator(".bb-search-list a").first.wait_for()
    page.keyboard.press("Enter")
    page.wait_for_url("**/blends/oat-gloss/")


def test_words_in_python_and_on_the_phone_are_the_same(watched: Watched, address: str, asset_address) -> None:
    from bowlbook.reading.search_word import words_of

    texts = ["Crème fraîche, 20 volume", "l'été", "Größe 4-6", "a_b c·d", "Ⅳ ½ x²", "日本 語", "  "]
    texts += [
        "20vol",
        "40V",
        "v30",
        "lvl4",
        "L7",
        "0.6 oz",
        "0,6oz",
        "30g",
        "6 %",
        "3 levels",
        "level 3 levels",
    ]
    texts += ["glosses boxes dries class previous gas", "client's", "what’s", "l’s'x", "٤ ௧ 4௧", "1:2"]
    watched.page.goto(address)
    ask = "async ([folder, texts]) => texts.map((await import(folder + 'words.js')).wordsOf)"
    assert watched.page.evaluate(ask, [asset_address, texts]) == [list(words_of(text)) for text in texts]


def rows(page: Page) -> list[str]:
    return page.locator(".bb-search-list a").all_inner_texts()


@pytest.mark.long
def test_a_head_offers_the_pick_with_it_set(watched: Watched, address: str) -> None:
    """The address keeps the hair alone; the page then has it chosen."""
    page = watched.opened(address)
    found = results(page, "coarse 4 cool")
    assert found[0] == f"{address}pick/?natural_level=4&texture=coarse&tone=cool"
    assert rows(page)[0].startswith("Pick by hair: level 4, coarse, cool")
    page.locator(".bb-search-list a").first.tap()
    page.wait_for_url("**/pick/?*")
    page.locator("#bb-pick").wait_for()
    chosen = "() => [...document.querySelectorAll('#bb-pick input[name]:checked')].map(e => e.value)"
    assert page.evaluate(chosen) == ["4", "coarse", "cool"]


def test_nothing_of_a_person_reaches_the_address(watched: Watched, address: str) -> None:
    watched.page.goto(address)
    for query in ("pregnant coarse 4", "coarse 4 under 16", "4 coarse sore scalp", "coarse 4 extensions"):
        assert not any("?" in href for href in results(watched.page, query)), query


@pytest.mark.long
def test_an_empty_field_shows_what_was_opened_and_what_is_new(watched: Watched, address: str) -> None:
    page = watched.page
    for opened in ("blends/oat-gloss/", "pick/?texture=coarse", "troubles/hot-foil/", "blends/oat-gloss/"):
        page.goto(f"{address}{opened}")
    page.get_by_role("button", name="Search").tap()
    page.locator(".bb-search-list a").first.wait_for()
    assert page.locator(".bb-search-title").all_inner_texts() == ["Opened lately on this phone", "New"]
    first, new = page.locator("ol.bb-search-list").all()
    assert [each.split("\n")[0] for each in first.locator("a").all_inner_texts()] == [
        "Oat gloss",
        "Hot or swelling foil",
    ]
    assert new.locator("a").count() == 6 and new.locator("a", has_text="Nov 25, 2026: ").count() == 6
    kept = page.evaluate("() => Object.entries(localStorage).filter(([key]) => key.endsWith(':lately'))")
    assert [value for _, value in kept] == ['["blends/oat-gloss/","troubles/hot-foil/"]']
    assert watched.faults == []


@pytest.mark.long
def test_a_thing_to_do_leads_to_the_blend_opened_last(watched: Watched, address: str) -> None:
    page = watched.opened(address)
    assert results(page, "poured too much")[0] == f"{address}blends/"
    page.goto(f"{address}blends/oat-gloss/")
    page.goto(address)
    assert results(page, "poured too much")[0] == f"{address}blends/oat-gloss/#bb-added"
    assert rows(page)[0].startswith("Added too much? Oat gloss")
    page.locator(".bb-search-list a").first.tap()
    page.wait_for_url("**/blends/oat-gloss/#bb-added")
    page.locator("#added-shows").wait_for()  # the tool is open


@pytest.mark.long
def test_what_is_said_of_what_was_found(watched: Watched, address: str) -> None:
    """Nothing, a word put right, never a word inside another; what is retired is last unless asked for."""
    page = watched.opened(address)
    said = page.locator(".bb-search-said")
    assert results(page, "zzzzqqq") == []
    assert "Nothing in the book" in said.inner_text()
    results(page, "developper")
    assert said.inner_text().startswith("“developper” read as “developer”. ")
    results(page, "developer")
    assert "read as" not in said.inner_text()
    assert results(page, "oat") != []  # in no other word that is found; and "art" begins none of them either
    assert not any("throat" in text or "coat" in text for text in rows(page))
    assert results(page, "owder") != [] and "read as" in said.inner_text()
    retired = f"{address}blends/foil-quick/"
    found = results(page, "white foil")  # the words of its name, and those of many others
    assert f"{address}blends/foil-clear/" in found[:3] and retired not in found[:8]
    assert results(page, "quick white foil")[0] == retired
    assert "Blend, retired" in rows(page)[0]
