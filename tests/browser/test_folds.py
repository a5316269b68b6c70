"""The manual on a phone: an index of folds, a field to find words, addresses that open a fold."""

import pytest
from playwright.sync_api import expect
from tests.browser.conftest import PHONE
from tests.browser.shared_pages import Open


@pytest.mark.long
def test_words_typed_leave_the_fields_that_have_all_of_them(open_page: Open, small_address: str) -> None:
    page = open_page(PHONE, small_address + "reference/fields/")
    field = page.get_by_label("Find on this page")
    every = page.locator(".bb-find-row").count()
    assert page.locator("article details[open]").count() == 0
    field.fill("priced_ON day")
    shown = page.locator(".bb-find-row:visible")
    expect(shown.first).to_contain_text("pack.priced_on")
    texts = [text.lower() for text in shown.all_inner_texts()]
    assert 0 < len(texts) < every and all("priced_on" in text and "day" in text for text in texts)
    expect(page.get_by_role("status").locator("visible=true")).to_have_text(f"{len(texts)} of {every}")
    field.fill("nowhere to be read")
    expect(page.locator("article details:visible")).to_have_count(0)
    field.fill("")
    expect(page.locator("article details[open]")).to_have_count(0)
    assert page.locator(".bb-find-row:not([hidden])").count() == every


def test_a_finding_is_found_by_a_word_of_its_meaning(open_page: Open, small_address: str) -> None:
    page = open_page(PHONE, small_address + "reference/findings/")
    page.get_by_label("Find on this page").fill("stale")
    expect(page.get_by_role("link", name="stale-price")).to_be_visible()


def test_a_word_of_the_trade_is_found_in_its_fold(open_page: Open, small_address: str) -> None:
    page = open_page(PHONE, small_address + "glossary/")
    page.get_by_label("Find on this page").fill("zero")
    shown = page.locator("article tbody tr:visible")
    expect(shown).to_have_count(1)
    expect(shown).to_contain_text("tare")


def test_an_address_opens_the_fold_around_it(open_page: Open, small_address: str) -> None:
    page = open_page(PHONE, small_address + "reference/write/#pictures")
    fold = page.locator("article details:has(#pictures)")
    expect(fold).to_have_attribute("open", "")
    expect(fold.locator("summary")).to_be_in_viewport()
    assert page.locator("article details[open]").count() == 1
    page.goto(small_address + "reference/findings/#stale-price")
    expect(page.get_by_role("link", name="stale-price")).to_be_in_viewport()
    page.goto(small_address + "reference/fields/#blend")
    page.goto(small_address + "reference/fields/#blend")
    expect(page.locator("#blend")).to_have_attribute("open", "")


@pytest.mark.long
def test_the_manual_without_scripts_is_folds_to_tap(open_page: Open, small_address: str) -> None:
    page = open_page(PHONE, small_address + "reference/commands/", scripts=False)
    page.locator("article summary").first.click()
    expect(page.locator("article details[open] > p").first).to_be_visible()
    assert page.get_by_label("Find on this page").count() == 0
