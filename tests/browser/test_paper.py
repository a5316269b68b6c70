"""On paper there is content and nothing else: no control, and no word that belongs to one."""

import pypdfium2
import pytest
from playwright.sync_api import Page
from tests.browser.conftest import DESK
from tests.browser.shared_pages import Open
from tests.seeds import rows_with_long

CONTROLS = """() => [...document.querySelectorAll(
  'button, input, select, textarea, label, legend, dialog, nav, .bb-button, .bb-skip, .bb-timers,'
  + '.bb-tool > summary, form summary')]
  .filter((each) => each.checkVisibility({ visibilityProperty: true, opacityProperty: true }))
  .map((each) => `${each.tagName} ${each.textContent.trim().slice(0, 40)}`)"""

WORDS = (
    *(
        "Skip to content",
        "Start a timer",
        "Begun",
        "Mute",
        "Start again",
        "Rinsed",
        "Search",
    ),
    *(
        "Any amount",
        "Added too much?",
        "Read all",
        "Whose hair?",
        "Tap what is",
        "Print this",
        "Handout to print",
        "Contents",
    ),
)


def sheets(page: Page, size: str = "A4") -> list[str]:
    """The text of each sheet of the page as the browser prints it."""
    document = pypdfium2.PdfDocument(page.pdf(format=size, print_background=False))
    return [sheet.get_textpage().get_text_bounded() for sheet in document]


def paper(page: Page) -> str:
    return "\n".join(sheets(page))


@pytest.mark.long
@pytest.mark.parametrize(
    "path, act, content",
    [
        ("pick/?natural_level=4&texture=coarse", None, "Violet in foil"),
        ("blends/soft-clay/", "#bb-search-open", "Soft clay three to one"),
        ("techniques/wide-foils/", ".bb-starter button", "Lay the foils back to front."),
        ("situations/fine-hair/", ".bb-skip", "Paint thinly."),
        ("", None, "In the book"),
        ("techniques/wide-foils/service/", None, "Violet powder"),
        ("classes/first-painting/", None, "Paints a quarter of a head evenly."),
        ("reports/costs/", None, "Prices"),
        ("reference/publish/", None, "public_url"),
    ],
)
def test_nothing_but_content_prints(
    open_page: Open, small_address: str, path: str, act: str | None, content: str
) -> None:
    page = open_page(DESK, small_address + path)
    if path.startswith("pick/"):
        page.locator("#bb-none").click()
        page.locator("#bb-answer .bb-recipe").wait_for()
    if act == ".bb-skip":
        page.keyboard.press("Tab")
    elif act:
        page.locator(act).click()
        page.locator(".bb-timers, dialog").locator("visible=true").first.wait_for()
    text = paper(page)
    assert content in text
    assert [word for word in WORDS if word in text] == []
    page.emulate_media(media="print")
    assert page.evaluate(CONTROLS) == []


@pytest.mark.long
def test_no_sheet_of_paper_ends_between_a_bowl_and_its_figures(open_page: Open, small_address: str) -> None:
    """Wherever the sheet ends: the service sheet is pushed down by 40 px at a time."""
    page = open_page(DESK, small_address + "techniques/wide-foils/service/")
    starts = tuple(
        page.locator(".bb-sheet:visible .bb-step-bowl")
        .first.locator(":scope > :is(h3, p, ul li)")
        .all_inner_texts()
    )
    assert len(starts) >= 3
    for push in range(200, 880, 40):
        page.locator("#start").evaluate("(title, push) => { title.style.paddingTop = `${push}px`; }", push)
        for sheet in sheets(page):
            last = " ".join(sheet.split("\n")[-1].split())
            assert last != "Cost" and not any(start.endswith(last) for start in starts), (push, last)


@pytest.mark.parametrize(
    "path, size, most",
    rows_with_long(
        [("blends/foil-clear/", "Letter", 1)],  # the fullest of the demo: a team's note beside all else
        [
            ("blends/cool-foil-coarse/", "A4", 1),
            ("techniques/dark-weave/", "A4", 2),
            ("techniques/triangle-in-two-foils/", "A4", 2),
            ("techniques/triangle-in-two-foils/", "Letter", 2),
        ],
    ),
)
def test_a_blend_is_one_sheet_and_a_technique_of_three_bowls_two(
    open_page: Open, address: str, path: str, size: str, most: int
) -> None:
    page = open_page(DESK, address + path)
    found = sheets(page, size)
    assert len(found) <= most
    assert "licensed practice" in " ".join(found).replace("\n", " ")
