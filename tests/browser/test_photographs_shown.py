"""A photograph on the phone: the size that the screen needs, and without a network the one that is kept."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext
from tests.browser.test_offline import Host, visit, visitor
from tests.checks.small_book import DAY, TECHNIQUE_FILE, SmallBook
from tests.photographs import write_photograph
from tests.site.small_site import config_for

from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into

__all__ = ["visitor"]
PAGE = "techniques/painting/"
SIX = ("back", "crown", "fringe", "left", "nape", "right")
SHOWN = """async () => {
  const found = [];
  for (const picture of document.querySelectorAll(".bb-picture img")) {
    picture.scrollIntoView();
    picture.loading = "eager";
    await picture.decode();
    const size = picture.currentSrc.split("-").pop();
    found.push([picture.naturalWidth > 0, size, picture.getBoundingClientRect().width, picture.alt]);
  }
  return found;
}"""


@pytest.fixture
def host(tmp_path: Path) -> Iterator[Host]:
    book = SmallBook(tmp_path / "recipes")
    for place, name in enumerate(SIX):
        write_photograph(book.root, f"{name}.jpg", seed=place)
    listed = (f"{{file: {name}.jpg, alt: The {name}., caption: In four., person: no}}" for name in SIX)
    book.add(TECHNIQUE_FILE, f"pictures: [{', '.join(listed)}]\n")
    made = Host(tmp_path / "served")
    made.site.parent.mkdir(parents=True)
    build_into(made.site, config_for(book), judge(book.root, DAY), lambda text: None)
    yield made
    made.close()


@pytest.mark.long
def test_online_and_offline(visitor: BrowserContext, host: Host) -> None:
    page = visit(visitor, host, PAGE)
    found = page.evaluate(SHOWN)
    assert [alt for *_, alt in found] == [f"The {name}." for name in SIX]
    for shown, name, width, _ in found:
        assert shown and name in ("480.webp", "960.webp") and width <= 390
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    host.close()
    wide = visitor.new_page()
    wide.set_viewport_size({"width": 1440, "height": 900})
    wide.goto(host.address + PAGE)
    found = wide.evaluate(SHOWN)
    assert len(found) == len(SIX)
    for shown, name, *_ in found:
        assert shown and name != "480.webp"  # asked for the large one, and was given the one that is kept
