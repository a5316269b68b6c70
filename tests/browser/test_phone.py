"""Every kind of page on a phone: nothing scrolls sideways, text and targets are large, nothing foreign.

Source for target size: WCAG 2.2, SC 2.5.5 (44 x 44 CSS px), which exempts links inside a sentence. The least
sizes of type are the project's own (docs/reference/look.md).
"""

import os

import pytest
from tests.browser.conftest import Watched

KINDS = ["", "pick/", "try/", "situations/", "reports/weighing/", "reference/write/"]
MORE_KINDS = ["blends/", "techniques/", "products/", "classes/", "changes/", "reports/costs/"]
MORE_KINDS += ["reports/dates/", "glossary/", "safety/", "reference/fields/", "heads/", "heads/coarse-hair/"]
MORE_KINDS += ["reports/coverage/", "reference/findings/", "reference/commands/"]
LONG = bool(os.environ.get("BOWLBOOK_LONG"))


ENTRIES = ["situations", "blends", "techniques", "products", "classes"]

SMALL_TEXT = """() => {
  const size = e => parseFloat(getComputedStyle(e).fontSize);
  const label = 'small, dt, caption, thead *, .bb-key, .bb-role, .bb-volume, .bb-where *, .bb-readings > li';
  const least = e => e.closest('tbody') && !e.matches(label) ? 14.99 : e.matches(label) ? 11.99 : 12.99;
  return [...document.querySelectorAll('article *')]
    .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()))
    .filter(e => !e.closest('svg, .bb-all-on-paper') && size(e) < least(e))
    .map(e => e.tagName + ': ' + e.textContent.trim().slice(0, 40));
}"""
"""Cells of tables below 15 px, labels below 12, any other text below 13."""

# Whole-row links, labels and buttons that can be seen; links inside a sentence are exempt.
SMALL_TARGETS = """() => [...document.querySelectorAll('a, button, label, summary')]
  .filter(e => e.checkVisibility({visibilityProperty: true, opacityProperty: true}))
  .filter(e => !(e.tagName === 'A' && e.closest(':is(article, footer) :is(p, li, td)') && !e.matches(
    '.bb-instead, .bb-choice, .bb-links a, .bb-table a')))
  .filter(e => !e.matches('.bb-skip'))
  .map(e => [e, e.getBoundingClientRect()])
  .filter(([e, r]) => r.width > 0 && r.height > 0 && r.right > 0 && r.left < innerWidth)
  .filter(([e, r]) => r.width < 43.99 || r.height < 43.99)
  .map(([e, r]) => `${e.tagName}.${e.className} ${r.width}x${r.height} ${e.textContent.trim()}`)"""


@pytest.fixture
def pages(demo_site) -> list[str]:
    found = []
    for kind in ENTRIES:
        folders = sorted(path.name for path in (demo_site / kind).iterdir() if path.is_dir())
        found += [f"{kind}/{name}/" for name in (folders[0], folders[-1])[: None if LONG else 1]]
    return [*KINDS, *(MORE_KINDS if LONG else ()), *found]


@pytest.mark.more
def test_pages_fit_a_phone_and_ask_nothing_of_another_host(
    watched: Watched, address: str, pages: list[str]
) -> None:
    wrong = []
    for path in pages:
        watched.page.goto(address + path)
        wide = watched.page.evaluate("document.documentElement.scrollWidth - innerWidth")
        if wide > 0:
            wrong.append(f"{path}: {wide} px too wide")
        wrong += [f"{path}: small text {text}" for text in watched.page.evaluate(SMALL_TEXT)]
        wrong += [f"{path}: small target {text}" for text in watched.page.evaluate(SMALL_TARGETS)]
    assert wrong == []
    assert watched.faults == []
    own = address.rsplit("/", 2)[0]
    assert [url for url in watched.requests if not url.startswith((own, "data:", "blob:"))] == []
    assert len(watched.requests) > len(pages)


def test_three_taps_to_the_bowl(watched: Watched, address: str) -> None:
    """A coarse level 4 that wants to be cool: found from the front page in three taps at most, and read."""
    page = watched.opened(address)
    page.locator("summary", has_text="Natural level 1 to 4").tap()
    page.get_by_role("link", name="Coarse level 4 that wants to be cool").tap()
    page.wait_for_url("**/situations/**")
    page.locator(".bb-choice").first.tap()
    page.wait_for_url("**/blends/**")
    shown = page.locator(".bb-panel").first.locator(".bb-shows")
    assert shown.all_inner_texts() == ["0.33", "0.50", "1.50"]
    assert shown.first.is_visible()
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('.bb-shows')).fontSize)")
    assert size >= 28


def test_every_size_is_on_paper(watched: Watched, address: str) -> None:
    page = watched.opened(address + "situations/coarse-level-4-cool/")
    read = "all => all.map(each => each.textContent)"
    last = page.locator(".bb-panel .bb-pours tr:last-child .bb-shows").evaluate_all(read)
    first = page.locator(".bb-panel .bb-pours tbody tr:first-child .bb-shows").evaluate_all(read)
    page.emulate_media(media="print")
    figures = page.locator(".bb-all-on-paper td b:visible").all_inner_texts()
    assert len(last) == 6 and figures[:6] == first and figures[-6:] == last


def test_cautions_stand_on_every_page_that_helps_to_mix_or_apply(demo_site) -> None:
    from bowlbook.wording.caution import USUAL_SHORT

    pages = [path for kind in ENTRIES for path in (demo_site / kind).glob("*/index.html")]
    assert len(pages) > 40
    for path in [*pages, demo_site / "index.html"]:
        text = path.read_text(encoding="utf-8")
        if ": do not use it.</strong>" in text or "<h1>This page has moved</h1>" in text:
            continue  # nothing is mixed from a retired recipe, nor from an address that leads on
        assert all(caution in text for caution in USUAL_SHORT), path
