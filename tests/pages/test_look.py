"""The values of the look: contrast as promised, one set of values for dark, nothing of the theme fetched.

Source: WCAG 2.2, SC 1.4.3 (text, 4.5) and 1.4.11 (edges of controls and figures, 3); relative luminance and
contrast ratio as the recommendation defines them.
"""

import re
from pathlib import Path

import pytest

from bowlbook.pages.asset import ASSETS, STYLE, assets

VALUES = (ASSETS / "look" / "values.css").read_text(encoding="utf-8")
BLOCK = re.compile(r"--([a-z-]+(?:\d+)?): *(#[0-9a-f]{3,8})")
LIGHT = dict(BLOCK.findall(VALUES.partition("@media (prefers-color-scheme: dark)")[0]))
TWINS = [
    dict(BLOCK.findall(VALUES.partition(start)[2].partition("}")[0]))
    for start in (':root:not([data-scheme="light"]) {', '\n:root[data-scheme="dark"] {')
]
TEXT = [
    ("ink", "ground"),
    ("ink-soft", "ground"),
    ("ink-soft", "tint"),
    ("act", "ground"),
    ("act", "tint"),
    ("act-ink", "act"),
    ("reading-ink", "reading"),
    ("care-ink", "care"),
    ("stop-ink", "stop"),
    ("stop-text", "ground"),
]
EDGES = [("edge", "ground"), ("reading-edge", "ground"), ("care-edge", "care"), ("care-edge", "ground")]


def luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(each * 2 for each in colour[1:4])
    parts = [int(digits[place : place + 2], 16) / 255 for place in (0, 2, 4)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_ratio_is_the_recommendations() -> None:
    """Black on white is 21; #767676 on white is the lightest grey that passes 4.5 (WCAG, on 1.4.3)."""
    assert contrast("#000000", "#ffffff") == 21
    assert 4.5 <= contrast("#767676", "#ffffff") < 4.6


def test_dark_has_one_set_of_values() -> None:
    assert TWINS[0] == TWINS[1] and len(TWINS[0]) > 15


@pytest.mark.parametrize("scheme", [LIGHT, {**LIGHT, **TWINS[1]}], ids=["light", "dark"])
def test_text_and_edges_keep_their_contrast(scheme: dict[str, str]) -> None:
    assert [(pair, found) for pair in TEXT if (found := contrast(*map(scheme.get, pair))) < 4.5] == []
    assert [(pair, found) for pair in EDGES if (found := contrast(*map(scheme.get, pair))) < 3] == []


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
