"""The site of a small book for the tests of the blend's page, and what they read off that page."""

from pathlib import Path

from playwright.sync_api import Page
from tests.site.small_site import house_config

from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.publish import publish
from commands.bonded_book import long_names

OUTSIDE = """() => [...document.querySelectorAll('.bb-weighing *')]
  .filter(e => e.checkVisibility() && !e.closest('.bb-wide, .bb-size') && e.textContent.trim())
  .map(e => [e.tagName + ' ' + e.textContent.trim().slice(0, 40), e.getBoundingClientRect()])
  .filter(([, r]) => r.width > 1 && (r.left < 0 || r.right > innerWidth)).map(([text]) => text)"""
"""What is cut off at a side of the screen."""


def build_bench_site(folder: Path) -> Path:
    """Builds the book of `long_names` in ``folder``; gives the site's folder."""
    book = long_names(folder / "recipes")
    judgement = judge(book.root, today())
    assert [each for each in judgement.findings if each.severity == "error"] == []
    config = house_config(book)
    publish(lambda into: build_into(into, config, judgement, print), folder / "site")
    return folder / "site"


def shown(page: Page) -> list[str]:
    """What the scale shows, in the bowl that can be seen."""
    return page.locator(".bb-panel .bb-pours .bb-shows:visible").all_inner_texts()


def adds(page: Page) -> list[tuple[str, str, str]]:
    """The pours still to make, as (name, add, scale shows)."""
    rows = page.locator(".bb-adds tbody tr")
    cells = rows.evaluate_all("all => all.map(e => [...e.children].map(c => c.textContent.trim()))")
    return [tuple(each) for each in cells]
