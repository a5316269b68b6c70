"""A house that weighs in grams alone reads of no ounces, and one that weighs in both reads of both."""

import pytest

from bowlbook.figures.bowl import bowls_of
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.wording.locale_format import locale_format_of
from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook

HOUSE_UNITS = "batches: {oz: [1, 2], g: [20, 40]}\nscale_step: {oz: 0.05, g: 1}"


@pytest.mark.parametrize(
    ("units", "ounces"),
    [("batches: {g: [20, 40]}\nscale_step: {g: 1}", False), (HOUSE_UNITS, True)],
)
def test_fluid_ounces_stand_where_ounces_are_weighed(small: SmallBook, units: str, ounces: bool) -> None:
    book = small.read((HOUSE_FILE, HOUSE_UNITS, units))
    blend = book.blends[BLEND_FILE.removeprefix("blends/").removesuffix(".yml")]
    panels = panels_of(book, bowls_of(book, blend), locale_format_of(book))
    volumes = [line.volume for panel in panels for line in panel.lines]
    shown = [each for each in volumes if each is not None]
    assert shown and all(" mL" in each and ("fl oz" in each) == ounces for each in shown)
