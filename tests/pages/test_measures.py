"""The house's own measures: beside the scale's figure on the bowl page and in a kit, never in its place."""

import json
import re
from fractions import Fraction

import pytest

from bowlbook.figures.bowl import bowls_of
from bowlbook.figures.kit import KitPlan
from bowlbook.figures.measure import measured
from bowlbook.pages.blend_page import blend_page
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.pages.kit_table import kit_table, planned_kit
from bowlbook.wording.locale_format import locale_format_of
from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook
from commands.run import run

MEASURES = """\
measures:
  - {name: scoop, holds: 18 g, of: [powder]}
  - {name: cap, holds: 5 mL, of: [developer-20]}
"""


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    book.add(HOUSE_FILE, MEASURES)
    return book


def test_a_weight_to_a_quarter_of_a_measure(book: SmallBook) -> None:
    """By hand: 10 g of 18 g are 0.56, so 0.5 scoop; 5 mL at 1.02 g/mL are 5.1 g, so 20 g are 3.92, 4 caps."""
    read = book.read()
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
    read = book.read()
    formats = locale_format_of(read)
    panel = panels_of(read, bowls_of(read, read.blends["soft-clay"]), formats)[-1]
    assert panel.label == "40 g"
    assert [line.measure for line in panel.lines] == [None, "about 0.5 scoops", "about 15.75 caps"]
    assert [line.weigh for line in panel.lines] == ["30", "10", "80"]
    planned = planned_kit(read, read.classes["first-painting"])
    assert isinstance(planned, KitPlan)
    needs = {line.name: line.needs for line in kit_table(planned, planned.notes.learners, formats).lines}
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


def noted(book: SmallBook, notes: str) -> str:
    """The notes on the bowl's page, of three parts of clay and one of powder."""
    book.add(BLEND_FILE, f"notes: {json.dumps(notes, ensure_ascii=False)}\n")
    read = book.read()
    formats = locale_format_of(read)
    blend = read.blends["soft-clay"]
    bowls = bowls_of(read, blend)
    page = blend_page(read, blend, bowls[0], panels_of(read, bowls, formats), formats)
    body = page.body.partition('id="notes"')[2]
    return body.partition("</details>")[0]


AID = '<span class="bb-soft">(about {})</span>'
OF = " of Violet powder"


@pytest.mark.parametrize(
    ("notes", "aid"),
    [
        ("Take 2 scoops.", "36 g" + OF),
        ("Take 2 Scoops of Violet powder.", "36 g"),
        ("Take 2\nscoops of the *violet powder*, level.", "36 g"),
        ("1 scoop", "18 g" + OF),
        ("1,5 scoops, not 2", "27 g" + OF),
        ("0.25 scoops at 6 sections", "4.5 g" + OF),
        ("2\u00a0caps.", "10 g of Developer 20"),
    ],
)
def test_in_a_recipes_notes_the_weight_stands_beside_the_amount(
    book: SmallBook, notes: str, aid: str
) -> None:
    """By hand: a scoop holds 18 g; a cap 5 mL of 1.02 g/mL, so two are 10.2 g."""
    shown = noted(book, notes)
    assert AID.format(aid) in shown and shown.count("(about") == 1
    without = re.sub(r" <span class=\"bb-soft\">.*?</span>", "", shown)
    book.edit(HOUSE_FILE, "measures:", "private: |\n  measures:")
    assert without == noted(book, notes)  # the author's words are as they were


@pytest.mark.parametrize(
    "notes",
    [
        *("scoops", "two scoops", "½ scoop", "1 1/2 scoops", "1/2 scoop", "1 ½ scoops", "-2 scoops"),
        *("1-2 scoops", "1 – 2 scoops", "1 to 2 scoops", "1:2 scoops", "1.5.2 scoops", "2,500 scoops"),
        *("02 scoops", "0 scoops", "2 scoopfuls", "2 scoop-sized heaps", "A2 scoops", "2 large scoops"),
        *("`2 scoops`", "So:\n\n    2 scoops", "[2 scoops](https://maker.example/)"),
        *("2 scoops of Plain clay", "2 scoops of *Plain clay*"),
    ],
)
def test_what_is_not_certain_gets_no_weight(book: SmallBook, notes: str) -> None:
    assert "(about" not in noted(book, notes)


def test_one_name_for_two_measures_is_certain_where_the_product_is_named(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "  - {name: cap", "  - {name: scoop, holds: 30 g, of: [clay]}\n  - {name: cap")
    assert "(about" not in noted(book, "2 scoops")
    assert AID.format("60 g") in noted(book, "2 scoops of plain clay")


def test_a_plural_of_the_houses_own_and_ounces(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "name: scoop,", "name: colher, plural: colheres,")
    book.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {oz: [1, 2]}")
    assert AID.format("1.27 oz" + OF) in noted(book, "2 colheres")
    assert "(about" not in noted(book, "2 colhers")


def test_a_link_that_looks_like_an_amount_is_left_alone(book: SmallBook) -> None:
    link = '[maker](https://maker.example/ "x > 2 scoops")'
    assert "(about" not in noted(book, link)
