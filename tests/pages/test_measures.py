"""The house's own measures: beside the scale's figure on the bowl page and in a kit, never in its place."""

from fractions import Fraction
from pathlib import Path

import pytest

from bowlbook.book.read_book import read_book
from bowlbook.figures.kit import KitPlan
from bowlbook.figures.measure import measured
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.pages.kit_table import kit_table, planned_kit
from bowlbook.wording.locale_format import locale_format_of
from checks.small_book import HOUSE_FILE, SmallBook
from commands.run import run

MEASURES = """\
measures:
  - {name: scoop, holds: 18 g, of: [powder]}
  - {name: cap, holds: 5 mL, of: [developer-20]}
"""


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    made = SmallBook(tmp_path / "recipes")
    made.add(HOUSE_FILE, MEASURES)
    return made


def test_a_weight_to_a_quarter_of_a_measure(book: SmallBook) -> None:
    """By hand: 10 g of 18 g are 0.56, so 0.5 scoop; 5 mL at 1.02 g/mL are 5.1 g, so 20 g are 3.92, 4 caps."""
    read = read_book(book.root).book
    assert read is not None
    shown = {}
    for product, weight in (("powder", 10), ("powder", 2), ("developer-20", 20), ("clay", 10)):
        found = measured(read.house.measures, read.products[product], Fraction(weight))
        shown[product, weight] = found and (found[0], found[1].name)
    assert shown == {
        ("powder", 10): (Fraction(1, 2), "scoop"),
        ("powder", 2): None,  # less than an eighth
        ("developer-20", 20): (Fraction(4), "cap"),
        ("clay", 10): None,
    }


def test_on_the_bowl_page_and_in_the_kit(book: SmallBook) -> None:
    """40 g at 3:1 hold 10 g of powder and 80 g of developer: half a scoop, 15.69 caps."""
    read = read_book(book.root).book
    assert read is not None
    formats = locale_format_of(read)
    panel = panels_of(read, read.blends["soft-clay"], formats)[-1]
    assert panel.label == "40 g"
    assert [line.measure for line in panel.lines] == [None, "about 0.5 scoops", "about 15.75 caps"]
    assert [line.weigh for line in panel.lines] == ["30", "10", "80"]
    planned = planned_kit(read, read.classes["first-painting"])
    assert isinstance(planned, KitPlan)
    needs = {line.name: line.needs for line in kit_table(planned, formats).lines}
    assert needs["Violet powder"].startswith("needs 5 g (about 0.25 scoops)")
    assert "(" not in needs["Plain clay"]


@pytest.mark.parametrize(
    "line",
    [
        "{name: scoop, holds: «bad-amount»18, of: [powder]}",
        "{name: scoop, holds: «wrong-unit»3 pieces, of: [powder]}",
        "{name: scoop, holds: 18 g, of: [«unknown-id»powdr]}",
        "«missing-key»{name: scoop, holds: 18 g}",
    ],
)
def test_what_cannot_be_a_measure(book: SmallBook, line: str) -> None:
    book.add(HOUSE_FILE, f"measures:\n  - {line}\n")
    book.shows(findings=1)


def test_the_kit_at_the_desk_names_the_measure_too(book: SmallBook) -> None:
    """5 g of powder are 0.28 of 18 g."""
    shown = run("kit", "first-painting", recipes=book.root).stdout
    assert "needs 5.0 g (about 0.25 scoops)" in shown and shown.count("scoop") == 1
