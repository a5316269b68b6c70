"""Lists on a phone: a row is read in a second; a long list is narrowed down over all its pages."""

from collections.abc import Iterator

import pytest
from tests.browser.conftest import PHONE, built, served
from tests.browser.shared_pages import Open
from tests.browser.small_house import write_small_house

COUNT = 130
"""More than one page of a list holds."""
ROWS = ".bb-list-body .bb-row"


@pytest.fixture(scope="module")
def long_address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The small house with many blends more: every second one for level 3 alone."""
    folder = tmp_path_factory.mktemp("long")
    recipes = write_small_house(folder / "recipes").root
    text = (recipes / "blends" / "violet.yml").read_text(encoding="utf-8")
    for number in range(COUNT):
        lines = [line for line in text.splitlines() if not line.startswith(("name:", "suits:"))]
        level = 3 if number % 2 else 8
        own = [f"name: Blend {number:03}", f"suits: {{natural_level: {level}, placement: [foil]}}"]
        (recipes / "blends" / f"blend-{number:03}.yml").write_text(
            "\n".join([*own, *lines]), encoding="utf-8"
        )
    built(recipes, folder / "site")
    with served(folder / "site") as found:
        yield found


def test_a_list_is_narrowed_down_by_facets(open_page: Open, address: str, demo_book) -> None:
    page = open_page(PHONE, address + "blends/")
    page.locator("#bb-filters summary").click()
    page.locator("label[for=narrow-level-4]").click()
    page.locator("#bb-filters label", has_text="strong").click()
    page.locator(".bb-shown", has_text="of").wait_for()
    wanted = {
        blend.name
        for blend in demo_book.blends.values()
        if not blend.retired
        and any(demo_book.products[each.product].strength == "strong" for each in blend.lighteners)
        and (blend.suits.natural_level is None or 4 in blend.suits.natural_level)
    }
    assert set(page.locator(f"{ROWS} b").all_inner_texts()) == wanted != set()
    page.reload()  # the address keeps what was asked
    page.locator(".bb-shown", has_text="of").wait_for()
    assert set(page.locator(f"{ROWS} b").all_inner_texts()) == wanted
    page.get_by_role("button", name="Clear all").click()
    page.wait_for_function(f"() => document.querySelectorAll('{ROWS}').length > {len(wanted) + 5}")


@pytest.mark.long
def test_a_long_list_is_narrowed_down_over_all_its_pages(open_page: Open, long_address: str) -> None:
    page = open_page(PHONE, long_address + "blends/")
    assert page.locator(ROWS).count() == 100
    page.locator("#bb-filters summary").click()
    page.locator("label[for=narrow-level-1]").click()
    page.locator("#bb-filters [value=level-3] + label").click()
    page.locator("label[for=narrow-level-1]").click()
    page.wait_for_function(f"() => document.querySelectorAll('{ROWS}').length >= {COUNT // 2}")
    names = page.locator(f"{ROWS} b").all_inner_texts()
    assert {name for name in names if name.startswith("Blend ")} == {
        f"Blend {number:03}" for number in range(1, COUNT, 2)
    }
    assert names == sorted(names)
    last = page.locator(ROWS, has_text="Blend 129").locator("a")
    last.click()
    page.wait_for_url("**/blends/blend-129/")


@pytest.mark.long
def test_a_letter_leads_to_its_first_row_on_its_page(open_page: Open, long_address: str) -> None:
    page = open_page(PHONE, long_address + "blends/")
    page.locator("#bb-filters summary").click()
    page.locator(".bb-letters a", has_text="V").click()
    page.wait_for_url("**/page/2/#letter-*")
    assert page.evaluate("document.querySelector(':target b').textContent").startswith("V")


def test_without_scripts_the_list_stands(open_page: Open, address: str, demo_book) -> None:
    page = open_page(PHONE, address + "blends/", scripts=False)
    current = [blend for blend in demo_book.blends.values() if not blend.retired]
    assert page.locator(ROWS).count() == len(current)
    assert not page.locator(".bb-narrow").is_visible()


@pytest.mark.long
def test_a_row_is_no_paragraph(open_page: Open, address: str) -> None:
    """About 85 px: no row of a list is higher than 120, as wide as a phone."""
    page = open_page(PHONE)
    for path in ("blends/", "techniques/", "situations/", "products/"):
        page.goto(address + path)
        heights = page.locator(ROWS).evaluate_all("all => all.map(each => each.offsetHeight)")
        assert len(heights) > 10 and max(heights) <= 120, (path, max(heights))
