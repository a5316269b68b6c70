"""The cards as they come out of the printer: one page each, nothing cut off, and the code leads to the page.

Each deck is printed to PDF by Chromium and read back by other programs: text and boxes by pdfium, the QR code
(ISO/IEC 18004) off the rendered picture by zxing.
"""

import os
import re
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp
from playwright.sync_api import Browser, Page
from tests.browser.conftest import DESK
from tests.browser.shared_pages import Open

from bowlbook.book.current import current

SIZES = {"a6": (105, 148), "4x6": (101.6, 152.4)}
"""Card sizes in mm: ISO 216 A6, and 4 x 6 inches."""

LONG = bool(os.environ.get("BOWLBOOK_LONG"))

CARDS = """() => [...document.querySelectorAll('article')].map(card => {
  const box = card.getBoundingClientRect();
  const all = [...card.querySelectorAll('th, td, dt, dd, li, h2, p')];
  const cells = all.map(e => [e, e.getBoundingClientRect()]);
  return {
    name: card.querySelector('h2').textContent,
    height: box.height,
    texts: cells.map(([e]) => e.innerText),
    outside: cells.filter(([e, r]) => r.left < box.left - .5 || r.right > box.right + .5
      || e.scrollWidth > e.clientWidth + 1).map(([e]) => e.innerText),
    address: card.querySelector('.bb-address').textContent,
  };
})"""


@pytest.fixture(scope="module")
def deck(browser: Browser, address: str):
    page = browser.new_page(viewport={"width": 900, "height": 900}, service_workers="block")
    page.goto(address + "cards/house-1/")
    yield page
    page.close()


def words(text: str) -> str:
    """Text without anything that a printer may lay out differently."""
    return re.sub(r"[\s\u00a0\u00ad\ufffe-]+", "", text)


@pytest.mark.more
@pytest.mark.parametrize("size", SIZES if LONG else ["a6"])
def test_one_page_a_card_and_nothing_cut_off(deck: Page, demo_book, tmp_path: Path, size: str) -> None:
    deck.locator(f"label[for=size-{size}]").click()
    deck.emulate_media(media="print")
    cards = deck.evaluate(CARDS)
    assert len(cards) == len(current(demo_book.blends)) + len(current(demo_book.techniques))
    assert [card["name"] for card in cards if card["outside"]] == []
    file = tmp_path / "deck.pdf"
    deck.pdf(path=str(file), prefer_css_page_size=True, print_background=True)
    deck.emulate_media(media="screen")
    printed = pypdfium2.PdfDocument(file)
    assert len(printed) == len(cards)
    for place, (sheet, card) in enumerate(zip(printed, cards, strict=True)):
        width, height = (points / 72 * 25.4 for points in sheet.get_size())
        assert abs(width - SIZES[size][0]) < 0.5 and abs(height - SIZES[size][1]) < 0.5
        text = sheet.get_textpage()
        shown = words(text.get_text_range())
        assert [cell for cell in card["texts"] if words(cell) not in shown] == []
        boxes = [text.get_charbox(place) for place in range(text.count_chars())]
        edge = 2 / 25.4 * 72  # what no printer reaches: 2 mm
        assert all(left >= edge and low >= edge for left, low, _, _ in boxes if left or low)
        points_wide, points_high = sheet.get_size()
        assert all(right <= points_wide - edge and top <= points_high - edge for _, _, right, top in boxes)
        if place % 12 and not LONG:
            continue  # reading its code off the picture is most of the work
        picture = sheet.render(scale=300 / 72).to_numpy()
        codes = zxingcpp.read_barcodes(picture)
        assert [code.text for code in codes] == [card["address"]]


LEAST = """() => [...document.querySelectorAll('article *')].flatMap((each) => {
  if (![...each.childNodes].some((node) => node.nodeType === 3 && node.data.trim())) return [];
  if (['title', 'desc'].includes(each.localName)) return [];
  const scale = each.ownerSVGElement ? each.getScreenCTM().a : 1;
  return [[parseFloat(getComputedStyle(each).fontSize) * scale * 0.75, each.textContent.trim().slice(0, 40)]];
}).filter(([points]) => points < 6.99)"""
"""Texts on cards under 7 pt; a point is 4/3 px."""


def test_nothing_on_a_card_or_slip_is_under_seven_points(deck: Page, open_page: Open, address: str) -> None:
    deck.emulate_media(media="print")
    small = deck.evaluate(LEAST)
    deck.emulate_media(media="screen")
    assert small == []
    page = open_page(DESK, address + "blends/foil-clear/strand-test/", media="print")
    assert page.locator("article li").count() and page.evaluate(LEAST) == []


def test_addresses_on_cards_are_those_of_the_pages(deck: Page, demo_book, demo_site: Path) -> None:
    addresses = [card["address"] for card in deck.evaluate(CARDS)]
    base = "https://quiet-bowl.example/"
    assert len(set(addresses)) == len(current(demo_book.blends)) + len(current(demo_book.techniques))
    for found in addresses:
        assert found.startswith(base)
        assert (demo_site / found.removeprefix(base) / "index.html").is_file()


def test_figures_on_cards_are_those_of_the_book(deck: Page, demo_book) -> None:
    from bowlbook.figures.bowl import ladder_of, mix
    from bowlbook.figures.rounding import decimals_of, fixed

    for blend in current(demo_book.blends).values():
        card = deck.locator(f"article:has(#blend-{blend.id})")
        found = card.locator("td").all_inner_texts()
        sizes = [mix(demo_book, blend, *each) for each in ladder_of(demo_book, blend)]
        expected = []
        for unit in dict.fromkeys(bowl.unit for bowl in sizes):
            own = [bowl for bowl in sizes if bowl.unit == unit]
            for place in range(len(own[0].pours)):
                for bowl in own:
                    pour, places = bowl.pours[place], decimals_of(bowl.step)
                    expected.append([fixed(pour.scale_shows, places), fixed(pour.reading.weigh, places)])
        assert [text.split() for text in found] == expected


def test_a_class_prints_its_own_deck(open_page: Open, address: str, demo_book) -> None:
    page = open_page(DESK, address + "classes/open-air-or-foil/cards/")
    names = page.locator("article h2").all_inner_texts()
    assert {"Toned triangles", "Triangle in two foils", "Cool foil for coarse dark hair"} <= set(names)
    assert page.locator(".bb-usual").count() == len(names)  # the usual cautions on every card


def test_no_price_on_any_card(demo_site: Path) -> None:
    for path in sorted(demo_site.rglob("card*/**/index.html")):
        if path.parent.name != "cards" or path.parent.parent.parent.name == "classes":
            assert "$" not in path.read_text(encoding="utf-8"), path


def test_kit_for_other_learners(open_page: Open, address: str, demo_book) -> None:
    from bowlbook.figures.kit import kit, kit_plan
    from bowlbook.wording.locale_format import LocaleFormat

    page = open_page(DESK, address + "classes/open-air-or-foil/#kit")
    field = page.locator("#bb-learners")
    field.wait_for()
    planned = kit_plan(demo_book, demo_book.classes["open-air-or-foil"])
    formats = LocaleFormat(demo_book.house)
    for learners in (10, 1, 17):
        field.fill(str(learners))
        found = kit(planned, learners)
        page.locator(".bb-kit-heads", has_text=f"For {learners} learner").wait_for()
        assert page.locator(".bb-kit-cost").inner_text() == formats.money(found.cost)
        assert page.locator(".bb-kit-each").inner_text() == formats.money(found.cost_per_learner)
        taken = page.locator(".bb-kit-table tbody td:nth-child(2)").all_inner_texts()
        assert [text.split(" ×")[0] for text in taken[:-2]] == [str(line.containers) for line in found.lines]
    page.get_by_role("button", name="One learner more").click()
    assert field.input_value() == "18"
    field.fill("0")
    assert field.get_attribute("aria-invalid") == "true"


def test_service_sheet_shows_the_hair_that_is_chosen(open_page: Open, address: str) -> None:
    page = open_page(DESK, address + "techniques/triangle-in-two-foils/service/")
    seen = page.locator(".bb-sheet:visible")
    assert seen.locator("h2").all_inner_texts() == ["Medium hair, medium density"]
    page.locator("label[for=length-long]").click()
    page.locator("label[for=density-thick]").click()
    assert seen.locator("h2").all_inner_texts() == ["Long hair, thick density"]
    assert seen.locator(".bb-shows").all_inner_texts()[:3] == ["0.67", "1.00", "3.00"]
