"""The look: one set of values for dark, nothing of the theme fetched. Contrast: `test_contrast`."""

import re
from pathlib import Path

from bowlbook.pages.asset import ASSETS, STYLE, assets

VALUES = (ASSETS / "look" / "values.css").read_text(encoding="utf-8")
BLOCK = re.compile(r"--([a-z-]+(?:\d+)?): *(#[0-9a-f]{3,8})")
TWINS = [
    dict(BLOCK.findall(VALUES.partition(start)[2].partition("}")[0]))
    for start in (':root:not([data-scheme="light"]) {', '\n:root[data-scheme="dark"] {')
]


def test_dark_has_one_set_of_values() -> None:
    assert TWINS[0] == TWINS[1] and len(TWINS[0]) > 15


def test_every_value_that_is_used_is_one_of_the_look() -> None:
    """A misspelt variable would leave its rule without effect, and nobody would see why."""
    style = assets()[STYLE].decode()
    own = style + "".join(text.decode() for name, text in assets().items() if name.endswith(".css"))
    known = set(re.findall(r"(--[a-z0-9-]+):", own))
    used = set(re.findall(r"var\((--[a-z0-9-]+)", own))
    assert used - known == set()


def test_no_page_asks_for_the_themes_own_files(demo_site: Path) -> None:
    assert list((demo_site / "assets").rglob("*.min.css")) == []
    for name in ("index.html", "blends/cool-foil-coarse/index.html", "pick/index.html"):
        text = (demo_site / name).read_text(encoding="utf-8")
        assert re.findall(r'<link rel="stylesheet" href="([^"]+)"', text)[0].endswith(STYLE)
        assert "style=" not in text and "stylesheets/" not in text
