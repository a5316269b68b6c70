"""additive-over-dose: an additive's ratio against its maker's dose."""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook

BOND = "name: Bond drops\nkind: additive\ndoes: Mends bonds.\ndose: 8:1\n"
STEPS, FINE = "scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.005, g: 0.1}"
"""A scale that can weigh an eighth of the small book's batches."""
TONER = "name: Pearl\nkind: toner\nform: gel\ntone: cool\nmixing_ratio: {usual: 1:2}\n"


def test_a_hair_more_than_the_dose_in_the_second_of_two(book: SmallBook) -> None:
    book.write("products/bond.yml", BOND)
    book.write("products/oil.yml", BOND.replace("Bond drops", "Oil drops"))
    book.edit(HOUSE_FILE, STEPS, FINE)
    book.add(
        BLEND_FILE,
        "additives:\n"
        "  - {product: oil, ratio: 8:1}\n"
        "  - product: bond\n"
        "    ratio: «additive-over-dose»7.99:1\n",
    )
    book.shows(findings=1)


@pytest.mark.parametrize("ratio", ["8:1", "10:1", "16:2"])
def test_the_dose_itself_and_less_of_it_pass(book: SmallBook, ratio: str) -> None:
    book.edit(HOUSE_FILE, STEPS, FINE)
    book.write("products/bond.yml", BOND)
    book.add(BLEND_FILE, f"additives:\n  - {{product: bond, ratio: {ratio}}}\n")
    book.shows(findings=0)


def test_without_a_dose_there_is_nothing_to_hold_it_against(book: SmallBook) -> None:
    book.write("products/bond.yml", BOND.replace("dose: 8:1\n", ""))
    book.write("products/pearl.yml", TONER)
    book.add(BLEND_FILE, "additives: [{product: bond, ratio: 2:1}, {product: pearl, ratio: 2:1}]\n")
    book.shows(findings=0)
