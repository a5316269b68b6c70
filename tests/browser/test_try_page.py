"""Try a blend on the phone: drafts, a head to make a blend for, the nearest recipe, handing the text over."""

from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import BrowserContext, Page, expect
from tests.browser.conftest import PHONE, Watched
from tests.browser.shared_pages import Open
from tests.browser.test_access import violations
from tests.browser.test_large_type import CUT_OFF, SIDEWAYS, WIDTH
from tests.browser.test_phone import SMALL_TARGETS, SMALL_TEXT

FOIL = ("blue-powder", "2", "white-powder", "1")


def opened(page: Page, address: str, query: str = "") -> Page:
    page.goto(f"{address}try/{query}")
    page.locator("#try").wait_for()
    return page


def put_in(page: Page, *bases: str, developer: str = "developer-20") -> None:
    """Choose products with their parts, and a developer."""
    for place in range(0, len(bases), 2):
        if place:
            page.locator("#try-add-base").click()
        row = page.locator("#try-bases > *").nth(place // 2)
        row.locator("select").select_option(bases[place])
        row.locator("input").fill(bases[place + 1])
    page.locator("#try-developer").select_option(developer)


def finish(page: Page, name: str = "Late harvest") -> None:
    """Say what is asked of every recipe."""
    page.locator("#try-suits [data-facet=placement] label", has_text="foil").click()
    page.locator("#try-name").fill(name)


@pytest.fixture
def page(watched: Watched, address: str) -> Page:
    return opened(watched.page, address)


def test_the_recipe_of_the_book_is_found_as_the_nearest(page: Page) -> None:
    put_in(page, *FOIL)
    nearest = page.locator("#try-nearest")
    expect(nearest).to_contain_text("Cool foil for coarse dark hair: the very same bowl.")
    page.locator("#try-bases input").first.fill("3")
    expect(nearest).to_contain_text("Cool foil for coarse dark hair:")
    cells = nearest.locator("tbody tr").evaluate_all(
        "all => all.map(e => [...e.children].map(c => c.innerText))"
    )
    assert cells[0] == ["Foil powder, blue-violet", "0.38", "0.33"]
    assert cells[-2] == ["Peroxide in the bowl", "4.00 %", "4.00 %"]
    page.locator("label[for=try-tones]").click()
    expect(nearest).to_be_empty()


@pytest.mark.long
def test_from_the_figures_one_tap_leads_to_keeping_and_to_writing(page: Page) -> None:
    """Good for and Not for, three screens of a phone, need not be scrolled over."""
    page.get_by_role("link", name="Keep it as a draft").click()
    expect(page.locator("#try-keep")).to_be_in_viewport()
    page.get_by_role("link", name="Write it down").click()
    expect(page.locator("#try-name")).to_be_in_viewport()


def test_a_draft_is_there_again_and_holds_nobody(page: Page, address: str) -> None:
    put_in(page, *FOIL)
    finish(page)
    page.locator("#try-by").fill("Ottilie")
    text = page.locator("#try-text").text_content() or ""
    assert "by: Ottilie" in text
    assert page.locator("#try-copy").is_visible()
    assert not page.locator("#try-propose").is_visible()  # there is no repository to propose it to
    page.locator("#try-keep").click()
    expect(page.locator("#try-kept")).to_have_text("Kept: Late harvest.")
    kept = page.evaluate("JSON.stringify(localStorage)")
    assert "Late harvest" in kept and "Ottilie" not in kept
    opened(page, address)
    assert page.locator("#try-name").input_value() == "Late harvest"  # what was on the page
    page.locator("#try-new").click()
    assert page.locator("#try-name").input_value() == ""
    expect(page.locator("#try-bowl")).to_contain_text("Choose what is in the bowl.")
    page.locator("#try-kept button").click()  # taken back
    assert page.locator("#try-name").input_value() == "Late harvest"
    page.locator("#try-new").click()
    page.locator(".try-draft").click()
    again = page.locator("#try-text").text_content() or ""
    assert again == text[: text.index("reviewed:")]
    page.get_by_role("button", name="Delete the draft Late harvest").click()
    assert page.locator("#try-drafts li").count() == 0
    page.locator("#try-kept button").click()  # undone
    assert page.locator(".try-draft").all_inner_texts() == ["Late harvest"]


@pytest.mark.long
def test_a_draft_outlives_a_product_that_left_the_shelf(page: Page, address: str) -> None:
    put_in(page, *FOIL)
    page.evaluate(
        "() => { for (const [key, text] of Object.entries(localStorage))"
        " localStorage.setItem(key, text.replaceAll('white-powder', 'gone-powder')); }"
    )
    opened(page, address)
    assert page.locator("#try-bases select").evaluate_all("all => all.map(e => e.value)") == ["blue-powder"]
    expect(page.locator("#try-bowl table")).to_be_visible()


@pytest.mark.long
@pytest.mark.parametrize(
    "kept", ['{"developer": {"ratio": 7}}', "{broken", '"text"', '{"lighteners": 3}', "[]"]
)
def test_a_draft_that_cannot_be_read_leaves_the_page_empty(page: Page, address: str, kept: str) -> None:
    put_in(page, *FOIL)
    page.evaluate(
        "text => { for (const key of Object.keys(localStorage)) localStorage.setItem(key, text); }", kept
    )
    opened(page, address)
    expect(page.locator("#try-bowl")).to_contain_text("Choose what is in the bowl.")
    put_in(page, *FOIL)
    expect(page.locator("#try-bowl table")).to_be_visible()


def test_a_number_that_could_not_be_read_does_not_close_the_page(page: Page, address: str) -> None:
    put_in(page, *FOIL)
    page.locator("#try-add-additive").click()
    page.locator("#try-additives select").select_option("bond-drops")
    page.locator("#try-additives input").first.fill("ten")
    page.locator("#try-bases input").first.fill("two")
    opened(page, address)
    expect(page.locator("#try-bowl")).to_contain_text("“” is no number of parts.")
    page.locator("#try-bases input").first.fill("2")
    expect(page.locator("#try-bowl table")).to_be_visible()


def test_a_blend_for_a_head(page: Page, address: str) -> None:
    page.goto(f"{address}situations/coarse-level-4-cool/")
    page.get_by_role("link", name="Make a blend for this head").click()
    page.locator("#try").wait_for()
    expect(page.locator("#try-head")).to_contain_text("Make a blend for this head: natural level 4; ")
    put_in(page, "soft-clay", "1")
    codes = "all => all.map(each => each.dataset.code)"
    assert "rule-contradicts-suits" in page.locator("#try-says li").evaluate_all(codes)
    expect(page.locator("#try-says")).to_contain_text("In the open air coarse dark hair stalls at orange")
    page.locator("#try-bases select").first.select_option("blue-powder")
    page.locator("#try-suits [data-facet=placement] label", has_text="foil").click()
    assert "rule-contradicts-suits" not in page.locator("#try-says li").evaluate_all(codes)


def test_what_cannot_be_read_is_said_and_nothing_is_guessed(page: Page) -> None:
    put_in(page, *FOIL)
    finish(page)
    field = page.locator("#try-bases input").first
    for typed in ("0", "1,234", "-2", "1e3", "<b>2</b>", "101", ""):
        field.fill(typed)
        expect(page.locator("#try-bowl")).to_contain_text(f"“{typed}” is no number of parts")
        expect(field).to_have_attribute("aria-invalid", "true")
        expect(page.locator("#try-recipe-text")).to_be_hidden()
        field.fill("1,5")
        expect(page.locator("#try-text")).to_contain_text("{product: blue-powder, parts: 1.5}")


def test_a_stop_stands_before_the_figures(page: Page) -> None:
    put_in(page, "cream-lightener", "1", developer="developer-20")
    assert page.locator(".try-held").count() == 0
    assert page.locator("#try-now b").first.inner_text() == "0.50 oz"
    page.locator("#try-developer").select_option("developer-40")
    says = "Do not mix this. 40 volume is over the limit of Cream lightener, gentle."
    expect(page.locator("#try-bowl > :first-child")).to_have_text(says)
    expect(page.locator("#try-now")).to_have_text(says)  # what is pinned holds no reading then


def test_an_additive_in_the_reverse_ratio_is_questioned(page: Page) -> None:
    """1 part to 20 of lightener, written as 1:20: common practice, no published source."""
    put_in(page, *FOIL)
    page.locator("#try-add-additive").click()
    page.locator("#try-additives select").select_option("pearl-toner")
    for side, typed in enumerate(("1", "20")):
        page.locator("#try-additives input").nth(side).fill(typed)
    expect(page.locator("#try-bowl > .try-held")).to_contain_text("1:20 is 20 parts of")
    expect(page.locator("#try-says")).to_contain_text("If 1 to 20 of lightener is meant, write 20:1.")
    page.locator("#try-additives input").first.fill("10")
    expect(page.locator(".try-held")).to_have_count(0)


def test_sizes(page: Page) -> None:
    put_in(page, *FOIL)
    size = page.locator("#try-size")
    size.fill("45 g")
    expect(page.locator("#try-bowl caption")).to_contain_text("Batch of 45 g.")
    assert page.locator("#try-sizes input:checked").count() == 0
    size.fill("5 fl oz")
    expect(page.locator("#try-bowl")).to_contain_text("That is a volume.")
    assert page.locator("#try-now").text_content() == ""
    page.locator("#try-sizes label", has_text="1 oz").click()
    expect(page.locator("#try-bowl caption")).to_contain_text("Batch of 1 oz.")
    page.locator("#try-own summary").click()
    page.locator("#try-batches [data-unit=oz]").fill("0,6 1.2")
    assert page.locator("#try-sizes label").all_inner_texts() == ["0.6 oz", "1.2 oz", "15 g", "30 g", "60 g"]


@pytest.mark.long
def test_the_text_is_copied_downloaded_and_proposed(
    phone: BrowserContext, address: str, tmp_path: Path
) -> None:
    phone.grant_permissions(["clipboard-read", "clipboard-write"])
    page = phone.new_page()
    propose = "https://git.salon.example/book/new/main/recipes/blends?filename={name}&value={text}"

    def with_repository(route) -> None:  # type: ignore[no-untyped-def]
        answer = route.fetch()
        body = answer.text()
        assert 'data-propose=""' in body  # the demo's configuration names no repository
        route.fulfill(response=answer, body=body.replace('data-propose=""', f'data-propose="{propose}"'))

    page.route("**/try/", with_repository)
    opened(page, address)
    put_in(page, *FOIL)
    finish(page, "Été & sel")
    text = page.locator("#try-text").text_content()
    page.locator("#try-copy").click()
    expect(page.locator("#try-done")).to_have_text("Copied.")
    assert page.evaluate("navigator.clipboard.readText()") == text
    with page.expect_download() as download:
        page.locator("#try-download").click()
    assert download.value.suggested_filename == "ete-sel.yml"
    assert Path(download.value.path()).read_text(encoding="utf-8") == text
    asked = urlsplit(page.locator("#try-propose").get_attribute("href") or "")
    assert (asked.netloc, asked.path) == ("git.salon.example", "/book/new/main/recipes/blends")
    assert parse_qs(asked.query, strict_parsing=True) == {"filename": ["ete-sel.yml"], "value": [text]}
    page.locator("#try-notes").fill("Why it is so, and so; a long line of notes, to the end of it.\n" * 90)
    asked = urlsplit(page.locator("#try-propose").get_attribute("href") or "")
    assert parse_qs(asked.query) == {"filename": ["ete-sel.yml"]}  # too long for an address: it is copied
    page.route("https://git.salon.example/**", lambda route: route.fulfill(body="begun"))
    page.locator("#try-propose").click()
    page.wait_for_url("https://git.salon.example/**")


@pytest.mark.long
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_and_width(open_page: Open, address: str, scheme: str) -> None:
    page = opened(open_page({"width": 320, "height": 640}, color_scheme=scheme), address)
    put_in(page, *FOIL, developer="developer-40")
    page.locator("#try-add-additive").click()
    page.locator("#try-add-not-for").click()
    page.evaluate("document.querySelectorAll('#try details').forEach(each => { each.open = true; })")
    finish(page)
    page.locator("#try-keep").click()
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert violations(page, "try/") == []


@pytest.mark.long
def test_figures_are_whole_and_targets_large_with_large_type(open_page: Open, address: str) -> None:
    """Text at 200 % on a phone (WCAG 2.2, SC 1.4.4), and targets of 44 px (SC 2.5.5)."""
    page = opened(open_page({"width": WIDTH, "height": 422}), address)
    put_in(page, *FOIL)
    page.locator("#try-add-additive").click()
    page.locator("#try-additives select").select_option("bond-drops")
    finish(page)
    assert page.evaluate(CUT_OFF, WIDTH) == []
    assert page.evaluate(SIDEWAYS) <= WIDTH
    page.locator("#try-keep").click()
    page.set_viewport_size(PHONE)
    assert page.evaluate(SMALL_TARGETS) == []
    assert page.evaluate(SMALL_TEXT) == []


def test_without_scripts_the_page_says_where_the_blends_are(open_page: Open, address: str) -> None:
    page = open_page(PHONE, f"{address}try/", scripts=False)
    assert page.locator("#try-without a").get_attribute("href") == "../blends/"
    assert not page.locator("#try").is_visible()
