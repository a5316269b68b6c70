"""Contrast as the recommendation defines it, and the look's own values against it.

Source: WCAG 2.2, relative luminance and contrast ratio; the reference library is wcag-contrast-ratio.
"""

import random

import pytest
import wcag_contrast_ratio

from bowlbook.pages.contrast import PAIRS, SCHEMES, channels, colours_of, contrast, hex_of, unreadable


def test_the_ratio_is_the_reference_librarys() -> None:
    draw = random.Random(1)
    for _ in range(300):
        one, other = (f"#{draw.randrange(1 << 24):06x}" for _ in range(2))
        parts = [[each / 255 for each in channels(colour)] for colour in (one, other)]
        assert contrast(one, other) == pytest.approx(wcag_contrast_ratio.rgb(*parts), rel=1e-3)


def test_black_on_white_and_the_lightest_grey_that_passes() -> None:
    """21, and #767676 (WCAG, on 1.4.3)."""
    assert contrast("#000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#fff") >= 4.5 > contrast("#777777", "#fff")


@pytest.mark.parametrize("scheme", SCHEMES)
def test_the_looks_own_colours_can_be_read(scheme: str) -> None:
    assert len(colours_of(scheme)) > 20
    assert unreadable(colours_of(scheme)) == []


def test_a_pair_that_cannot_be_read_is_found() -> None:
    found = unreadable({**colours_of("light"), "act": "#009485"}, frozenset({"act"}))
    assert {each.pair for each in found} == {
        each for each in PAIRS if "act" in each[:2] and "act-ink" not in each[:2]
    } | {each for each in PAIRS if each[:2] == ("act-ink", "act")}


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("#0a7", "#0a7"),
        ("#00aa77", "#00aa77"),
        ("rgb(0, 170, 119)", "#00aa77"),
        ("hsl(36,100%,50%)", "#ff9900"),
    ]
    + [("hsl(36deg 100% 50%)", "#ff9900"), ("hsl(0,0%,100%)", "#ffffff")]
    + [(other, None) for other in ("#00aa7780", "teal", "var(--brand)", "rgb(0 0 0 / 50%)", "#12", "")],
)
def test_colours_of_a_style_sheet(written: str, read: str | None) -> None:
    """hsl(36, 100 %, 50 %) is #ff9900 by CSS Color 4: green is 36/60 of 255."""
    assert hex_of(written) == read
