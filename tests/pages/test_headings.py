"""Headings of every page: one of the first level, and none that skips a level."""

import re
from itertools import pairwise
from pathlib import Path

import pytest

from bowlbook.pages.free_text import free_text

LEVEL = re.compile(r"<h([1-6])[ >]")


def faults(html: str) -> list[str]:
    levels = [int(each) for each in LEVEL.findall(html)]
    found = [] if levels.count(1) == 1 and levels[0] == 1 else [f"begins {levels[:3]}, {levels.count(1)} h1"]
    return found + [f"h{above} → h{below}" for above, below in pairwise(levels) if below > above + 1]


def test_every_page_of_the_demo(demo_site: Path) -> None:
    pages = sorted(demo_site.rglob("*.html"))
    assert len(pages) > 150
    wrong = {
        str(page.relative_to(demo_site)): found
        for page in pages
        if (found := faults(page.read_text(encoding="utf-8")))
    }
    assert wrong == {}


@pytest.mark.parametrize(
    "authored, shown",
    [
        ("# One\n\n## Two\n\n# Again", [3, 4, 3]),
        ("### Begins deep\n\n### Goes on", [3, 3]),
        ("## Two\n\n##### Five\n\n### Three\n\n# One", [3, 4, 4, 3]),
        ("# 1\n## 2\n### 3\n#### 4\n##### 5\n###### 6", [3, 4, 5, 6, 6, 6]),
    ],
)
def test_an_authors_headings_go_down_one_at_a_time(authored: str, shown: list[int]) -> None:
    html = str(free_text(authored))
    assert [int(each) for each in LEVEL.findall(html)] == shown
    assert [int(each) for each in re.findall(r"</h([1-6])>", html)] == shown
