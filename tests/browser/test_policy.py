"""The strict Content-Security-Policy: in every page, nothing inline, and everything works under it."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from tests.browser.conftest import PHONE

from bowlbook.pages.policy import POLICY

INLINE = [
    (re.compile(r"<script(?![^>]*\bsrc=)(?![^>]*application/json)[^>]*>"), "a script without a file"),
    (re.compile(r"<style\b"), "a style sheet inside the page"),
    (re.compile(r"<[^>]*\sstyle="), "a style attribute"),
    (re.compile(r"<[^>]*\son[a-z]+="), "an event attribute"),
    (re.compile(r"(?:href|src|action)=[\"']?\s*(?:javascript|vbscript|data):", re.I), "a script address"),
]


def test_every_page_has_it_and_nothing_inline(demo_site: Path) -> None:
    assert "unsafe" not in POLICY and "'self'" in POLICY
    found = []
    pages = sorted(demo_site.rglob("*.html"))
    assert len(pages) > 150
    for path in pages:
        text = path.read_text(encoding="utf-8")
        head = text.split("</head>")[0]
        metas = re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">', head)
        if [each.replace("&#39;", "'") for each in metas] != [POLICY]:
            found.append(f"{path.name}: policy {metas}")
        first = min(text.index(tag) for tag in ("<script", "<link") if tag in text)
        assert text.index("Content-Security-Policy") < first  # it holds for all that follows
        found += [
            f"{path.relative_to(demo_site)}: {what}" for pattern, what in INLINE if pattern.search(text)
        ]
    assert found == []


@pytest.mark.long
def test_everything_works_under_it(browser: Browser, address: str) -> None:
    context = browser.new_context(
        viewport=PHONE, permissions=["clipboard-read", "clipboard-write"], service_workers="block"
    )
    context.add_init_script(
        "window.broken = []; addEventListener('securitypolicyviolation',"
        " e => broken.push(e.violatedDirective + ' ' + e.blockedURI))"
    )
    page = context.new_page()
    broken: list[str] = []

    def collect() -> None:
        broken.extend(page.evaluate("broken"))

    page.goto(address)
    page.get_by_role("button", name="Contents").click()
    page.locator("#bb-scheme").click()
    assert page.evaluate("document.documentElement.dataset.scheme") == "dark"
    collect()
    page.goto(address + "blends/cool-foil-coarse/")
    assert page.evaluate("document.documentElement.dataset.scheme") == "dark"  # remembered
    page.locator("#bb-any > summary").click()
    page.locator("#bench-batch").fill("0.7")
    page.locator("#bb-added > summary").click()
    page.locator("label[for=added-0]").click()
    page.locator("#added-shows").fill("9")
    page.locator(".bb-adds").wait_for()
    page.get_by_role("button", name="Search").click()
    page.get_by_label("Search the book").fill("clay")
    page.locator(".bb-search-list a").first.wait_for()
    collect()
    page.goto(address + "reference/commands/#the-site-while-you-write")
    page.locator(".bb-copy").first.click()
    page.locator(".bb-copy", has_text="Copied").first.wait_for()
    assert "bowlbook serve" in page.evaluate("navigator.clipboard.readText()")
    collect()
    for path in ("pick/", "techniques/dark-paint/", "classes/open-air-or-foil/", "cards/house-1/"):
        page.goto(address + path)
        page.wait_for_timeout(200)
        collect()
    context.close()
    assert broken == []
