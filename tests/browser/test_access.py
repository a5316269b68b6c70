"""Pages read by axe-core, the accessibility engine, in light and dark."""

import os

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page
from tests.browser.conftest import PHONE
from tests.browser.shared_pages import Open

PAGES = [
    "blends/*",
    "pick/",
    "",
    "situations/*",
    "blends/",
    "blends/honey-gloss/",
    "blends/cool-foil-coarse/card/",
    "situations/",
    "heads/",
    "heads/coarse-hair/",
    "techniques/",
    "techniques/*",
    "techniques/triangle-in-two-foils/service/",
    "products/",
    "products/*",
    "troubles/",
    "troubles/*",
    "classes/",
    "classes/*",
    "classes/open-air-or-foil/handout/",
    "cards/",
    "try/",
    "changes/",
    "reports/costs/",
    "reports/weighing/",
    "reports/dates/",
    "reports/coverage/",
    "glossary/",
    "safety/",
    "timing-log/",
    "reference/write/",
    "reference/look/",
    "reference/parts/",
    "reference/fields/",
    "reference/findings/",
    "reference/findings/unweighable-batch/",
    "404.html",
]
"""One of every kind of page, the most used first."""
FOLDS_OPEN = "for (const each of document.querySelectorAll('details')) each.open = true;"
EVERYDAY = None if os.environ.get("BOWLBOOK_LONG") else 1
"""As many as the everyday run has time for; `.ci/run` asks for all."""

OPENED = {
    "menu": ("", "() => document.querySelector('.bb-menu-button').click()"),
    "search": ("", "() => document.getElementById('bb-search-open').click()"),
    "bench": (
        "blends/cool-foil-coarse/",
        "() => { for (const each of document.querySelectorAll('#bb-bench details')) each.open = true;"
        "document.getElementById('added-0').click(); const f = document.getElementById('added-shows');"
        "f.value = '9'; f.dispatchEvent(new Event('input', {bubbles: true})); }",
    ),
    "timers": (
        "techniques/dark-paint/",
        "() => { for (const each of ['.bb-starter button', '.bb-timers-head'])"
        " document.querySelector(each).click(); }",
    ),
}
"""What opens on a page, and how."""

RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}


def violations(page: Page, where: str) -> list[str]:
    response = Axe().run(page, options={**RULES, "resultTypes": ["violations"]})
    return [
        f"{where} {each['id']}: {[node['html'][:120] for node in each['nodes'][:3]]}"
        for each in response.response["violations"]
    ]


@pytest.mark.more
@pytest.mark.parametrize("scheme", ["light", "dark"] if EVERYDAY is None else ["light"])
def test_axe_finds_nothing(open_page: Open, address: str, demo_site, scheme: str) -> None:
    page = open_page(PHONE, color_scheme=scheme)
    found = []
    for path in PAGES[:EVERYDAY]:
        if path.endswith("*"):
            path = f"{path[:-1]}{sorted(p.name for p in (demo_site / path[:-2]).iterdir() if p.is_dir())[0]}/"
        page.goto(address + path)
        page.evaluate(FOLDS_OPEN)
        found += violations(page, f"{path} {scheme}")
    assert found == []


@pytest.mark.long
@pytest.mark.parametrize("scheme", ["light", "dark"] if EVERYDAY is None else ["dark"])
def test_what_opens_is_as_clean(open_page: Open, address: str, scheme: str) -> None:
    found = []
    page = open_page(PHONE, color_scheme=scheme)
    for name, (path, act) in [*OPENED.items()][:EVERYDAY]:
        page.goto(address + path)
        page.wait_for_timeout(100)
        page.evaluate(act)
        page.wait_for_timeout(300)
        found += violations(page, f"{name} {scheme}")
    assert found == []


@pytest.mark.long
def test_keyboard_reaches_what_scrolls_and_the_order_is_that_of_the_page(
    open_page: Open, address: str
) -> None:
    page = open_page(PHONE, address + "blends/cool-foil-coarse/")
    seen = []
    for _ in range(14):
        page.keyboard.press("Tab")
        seen.append(page.evaluate("document.activeElement.getBoundingClientRect().top + scrollY"))
    assert seen == sorted(seen)
    page.goto(address + "reference/write/")
    wide = "() => [...document.querySelectorAll('article *')].filter(e => e.scrollWidth > e.clientWidth + 1"
    wide += (
        " && getComputedStyle(e).overflowX === 'auto' && e.tabIndex < 0 && !e.querySelector('[tabindex]'))"
    )
    assert page.evaluate(wide + ".map(e => e.outerHTML.slice(0, 80))") == []


@pytest.mark.long
def test_zoomed_to_four_hundred_per_cent_nothing_scrolls_sideways(open_page: Open, address: str) -> None:
    """1280 CSS px at 400 % are 320 (WCAG 2.2, SC 1.4.10 Reflow)."""
    page = open_page({"width": 320, "height": 256})
    for path in (
        "",
        "blends/cool-foil-coarse/",
        "pick/",
        "try/",
        "techniques/triangle-in-two-foils/service/",
        "classes/open-air-or-foil/",
    ):
        page.goto(address + path)
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path


@pytest.mark.long
def test_right_to_left_nothing_leaves_the_page(open_page: Open, address: str) -> None:
    page = open_page(PHONE)
    for path in ("", "blends/cool-foil-coarse/", "pick/"):
        page.goto(address + path)
        page.evaluate("() => { document.documentElement.dir = 'rtl'; document.body.dir = 'rtl'; }")
        assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0, path
        out = "() => [...document.querySelectorAll('article :is(p, td, th, a, label)')]"
        out += ".filter(e => !e.closest('.bb-wide'))"
        out += ".map(e => [e.outerHTML.slice(0, 90), e.getBoundingClientRect()])"
        out += (
            ".filter(([, r]) => r.width && (r.left < -1 || r.right > innerWidth + 1)).map(([text]) => text)"
        )
        assert page.evaluate(out) == [], path


@pytest.mark.parametrize(
    "path, field",
    [
        ("blends/cool-foil-coarse/", "#bench-batch"),
        ("try/", "#try-size"),
        ("classes/open-air-or-foil/", "#bb-learners"),
    ],
)
def test_a_field_that_cannot_be_read_is_marked(open_page: Open, address: str, path: str, field: str) -> None:
    """Source: WCAG 2.2, SC 3.3.1 (the item that is in error is identified)."""
    page = open_page(PHONE, address + path)
    page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
    place = page.locator(field)
    border = "each => getComputedStyle(each).borderColor"
    before = place.evaluate(border)
    place.fill("99999999")
    assert place.evaluate(border) != before
