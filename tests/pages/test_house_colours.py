"""A house's own colours: whatever it says, what is shown can be read, and what could not be is named."""

import re

import pytest
from wcag_contrast_ratio import rgb

from bowlbook.pages.contrast import PAIRS, channels, colours_of
from bowlbook.pages.house_colours import Given, house_colours

LIGHT = re.compile(r"^@media screen\{:root\{([^}]*)\}")
DARK = re.compile(r':root\[data-scheme="dark"\]\{([^}]*)\}')


def shown(style: str) -> dict[str, dict[str, str]]:
    """The look's values with those of a style sheet over them, by scheme."""
    found = {}
    for scheme, pattern in (("light", LIGHT), ("dark", DARK)):
        match = pattern.search(style)
        assert match, style
        own = dict(each.removeprefix("--").split(":") for each in match[1].split(";"))
        found[scheme] = {**colours_of(scheme), "focus": own["act"], **own}
    return found


def given(colour: str, written: str = "") -> Given:
    return Given(colour, written or colour)


@pytest.mark.parametrize(
    "colour", [f"#{red}{green}{blue}" for red in "05f" for green in "07f" for blue in "08f"]
)
def test_whatever_a_house_says_can_be_read(colour: str) -> None:
    """By the reference library's ratio: 4.5 for text, 3 for the rest (WCAG 2.2, SC 1.4.3 and 1.4.11)."""
    for scheme, values in shown(house_colours({"light": {"primary": given(colour)}}).style).items():
        for front, back, least in PAIRS:
            parts = [[each / 255 for each in channels(values[name])] for name in (front, back)]
            assert rgb(*parts) >= least - 0.01, (scheme, front, back)


def test_what_cannot_be_read_is_named_with_its_ratio_and_what_it_needs() -> None:
    found = house_colours({"light": {"primary": given("#009485", "teal"), "accent": given("#b0eb00")}})
    primary, accent = found.warnings
    assert primary.startswith("theme, palette, primary: teal (#009485) cannot be read in light: links and")
    assert "(act) on" in primary and "needs 4.5 (WCAG 2.2, 1.4.3)" in primary
    assert "(focus) on" in accent and "needs 3 (WCAG 2.2, 1.4.11)" in accent
    values = shown(found.style)["light"]
    assert values["act"] in primary and values["focus"] in accent
    assert "#009485" not in found.style and "#b0eb00" not in found.style.partition("dark")[0]


def test_what_can_be_read_is_shown_as_it_is_and_dark_is_made_of_it() -> None:
    found = house_colours({"light": {"primary": given("#6a1b6e")}})
    assert found.warnings == []
    assert shown(found.style)["light"]["act"] == "#6a1b6e"
    dark = shown(found.style)["dark"]["act"]
    assert dark != "#6a1b6e" and channels(dark)[2] > channels(dark)[1], "lighter, and still purple"


def test_a_colour_that_means_something_else_is_warned_of() -> None:
    [hair] = house_colours({"light": {"primary": given("#7a4a10")}}).warnings
    assert "the colours of hair" in hair
    [stop] = house_colours({"light": {"primary": given("#a01818")}}).warnings
    assert "the red that says stop" in stop


def test_without_colours_there_is_no_style_sheet() -> None:
    assert house_colours({}) == house_colours({"light": {}}) == ("", [])
