"""The look: one set of values for dark, nothing of the theme fetched. Contrast: `test_contrast`."""

import math
import re
from itertools import pairwise
from pathlib import Path

import pytest

from bowlbook.pages.asset import ASSETS, STYLE, assets
from bowlbook.pages.contrast import colours_of

VALUES = (ASSETS / "look" / "values.css").read_text(encoding="utf-8")
BLOCK = re.compile(r"--([a-z-]+(?:\d+)?): *(#[0-9a-f]{3,8})")
LIGHT = colours_of("light")
TWINS = [
    dict(BLOCK.findall(VALUES.partition(start)[2].partition("}")[0]))
    for start in (':root:not([data-scheme="light"]) {', '\n:root[data-scheme="dark"] {')
]


def lab(colour: str) -> tuple[float, float, float]:
    """CIELAB of an sRGB colour under D65 (IEC 61966-2-1; CIE 15, equations of CIE 1976 L*a*b*)."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts
    )
    x = (0.4124564 * red + 0.3575761 * green + 0.1804375 * blue) / 0.95047
    y = 0.2126729 * red + 0.7151522 * green + 0.0721750 * blue
    z = (0.0193339 * red + 0.1191920 * green + 0.9503041 * blue) / 1.08883
    fx, fy, fz = (t ** (1 / 3) if t > (6 / 29) ** 3 else t * 841 / 108 + 4 / 29 for t in (x, y, z))
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def test_the_colour_space_is_the_standards() -> None:
    """sRGB red is L* 53.24, a* 80.09, b* 67.20 under D65: a figure in general use, here from memory."""
    assert lab("#ff0000") == pytest.approx((53.24, 80.09, 67.20), abs=0.02)


@pytest.mark.parametrize(
    ("level", "measured"), [(1, (18.37, -0.05, -0.84)), (3, (23.59, 3.87, 4.76))], ids=["black", "dark brown"]
)
def test_hair_that_was_measured_is_shown_as_measured(
    level: int, measured: tuple[float, float, float]
) -> None:
    """Measurement of hair luster by diffuse reflectance spectrophotometry; J. Cosmet. Sci. 51 (2000), 293.

    Black hair: table IV, specular component included. Dark brown hair: table III, viewing angle 10 degrees.
    """
    assert math.dist(lab(LIGHT[f"level-{level}"]), measured) < 0.5


def test_levels_get_lighter_and_exposed_pigment_goes_from_red_to_yellow() -> None:
    """Common practice, no published source: levels by lightness, pigment from red over orange to yellow.

    Two neighbours differ by more than 3 (CIE 1976 colour difference), which is seen side by side.
    """
    hair = [lab(LIGHT[f"level-{level}"]) for level in range(1, 11)]
    bare = [lab(LIGHT[f"pigment-{level}"]) for level in range(1, 11)]
    hues = [math.degrees(math.atan2(b, a)) for _, a, b in bare]
    assert hues[1:] == sorted(hues[1:]) and hues[0] < 45 < hues[5] < 75 < hues[8]
    for each in (hair, bare):
        assert [light for light, *_ in each] == sorted(light for light, *_ in each)
        assert min(math.dist(one, other) for one, other in pairwise(each)) > 3


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


def test_pages_say_which_colours_were_drawn_by_eye(demo_site: Path) -> None:
    """And each swatch of a level or of pigment stands beside a word for it."""
    for path in demo_site.glob("*/*/index.html"):
        page = path.read_text(encoding="utf-8")
        shown = 'class="bb-exposed-at"' in page or "bb-levels" in page
        assert shown <= ("drawn by eye" in page), path
        assert not re.search(r'<i class="bb-[lp]\d+"></i>(?:\d+)?\s*<(?!small>|span>)', page), path
    pick = (demo_site / "pick" / "index.html").read_text(encoding="utf-8")
    assert "Colours drawn by eye" in pick
    swatches = re.findall(r'<i class="bb-[lp]\d+"></i>(.*?)</label>', pick)
    assert len(swatches) == 30 and all(re.fullmatch(r"\d+<small>\w[^<]*</small>", each) for each in swatches)
