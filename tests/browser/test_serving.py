"""The preview while an entry is broken, as its author sees it: every page answers, and mends itself."""

import os
import re
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from tests.site.small_site import house_config

from bowlbook.commands.group import PROGRAM
from checks.small_book import BLEND_FILE, SmallBook

LONG = 120.0
"""Seconds after which a preview that does not begin is given up."""
WAIT = 30_000
"""Milliseconds that a page may take to change."""
MARKUP = '"<img src=x onerror=document.title=1>": 1\n'
"""A key of which a finding shows the line."""


@pytest.fixture
def broken(tmp_path: Path) -> SmallBook:
    """A small book, its blend broken, with one page by hand."""
    book = SmallBook(tmp_path / "recipes")
    house_config(book)
    book.add(BLEND_FILE, MARKUP)
    return book


@pytest.fixture
def preview(broken: SmallBook) -> Iterator[str]:
    """Where its preview is served; a free port is taken."""
    top = broken.root.parent
    words = ["serve", f"--config={top / 'mkdocs.yml'}", f"--recipes={broken.root}", "--address=127.0.0.1:0"]
    with subprocess.Popen(
        [*PROGRAM, *words], stderr=subprocess.PIPE, text=True, env={**os.environ, "TMPDIR": str(top)}
    ) as serving:
        assert serving.stderr is not None
        late = threading.Timer(LONG, serving.kill)
        late.start()
        lines = iter(serving.stderr)
        found = next((said for line in lines if (said := re.search(r"Serving on (\S+)", line))), None)
        assert found is not None
        rest = threading.Thread(target=serving.stderr.read, daemon=True)  # or its pipe would fill up
        rest.start()
        yield found[1]
        late.cancel()
        serving.terminate()


@pytest.mark.long
def test_broken_mended_and_broken_again(browser: Browser, broken: SmallBook, preview: str) -> None:
    context = browser.new_context(viewport={"width": 360, "height": 640}, service_workers="block")
    context.set_default_timeout(WAIT)
    page = context.new_page()
    page.goto(f"{preview}blends/soft-clay/")
    box = page.locator("#bb-not-built")
    expect(box).to_contain_text("Nothing to show yet", timeout=WAIT)
    expect(box).to_contain_text("unknown-key", timeout=WAIT)
    expect(box).to_contain_text("<img src=x onerror=", timeout=WAIT)  # as text
    assert page.locator("img").count() == 0 and page.title() == "Not built"

    broken.edit(BLEND_FILE, MARKUP, "")
    expect(page.locator("h1")).to_have_text("Soft clay three to one", timeout=WAIT)  # it reloads by itself
    expect(box).to_have_count(0, timeout=WAIT)

    broken.add(BLEND_FILE, MARKUP)
    expect(box).to_contain_text("An older page: your last change is not in it", timeout=WAIT)
    expect(page.locator("h1")).to_have_text("Soft clay three to one", timeout=WAIT)
    page.mouse.wheel(0, 600)
    size = box.bounding_box()
    assert size is not None and size["y"] == 0 and size["width"] == 360 and size["height"] < 640 * 0.75
    assert page.evaluate("document.documentElement.scrollWidth") == 360
    box.locator("summary").click()  # folded, its first line stays
    expect(box.locator("pre")).to_be_hidden(timeout=WAIT)
    expect(box.locator("summary")).to_be_visible(timeout=WAIT)
    page.goto(f"{preview}safety/")
    expect(box).to_be_visible(timeout=WAIT)

    broken.edit(BLEND_FILE, MARKUP, "")
    expect(box).to_have_count(0, timeout=WAIT)
    context.close()
