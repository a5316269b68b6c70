"""incomplete-pack: a net content that cannot be weighed, and a price without its day."""

import pytest

from checks.small_book import CLAY_FILE, DEVELOPER_FILE, FOIL_FILE, POWDER_FILE, Edit, SmallBook

PRICED = "pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}"
SUPPLIES = "pack: {net: 500 pieces, price: 19.00, priced_on: 2026-09-01}"


@pytest.mark.parametrize("net", ["2 fl oz", "500 mL", "100 pieces"])
def test_powder_and_clay_are_sold_by_weight(book: SmallBook, net: str) -> None:
    book.edit(POWDER_FILE, "250 g", f"«incomplete-pack»{net}")
    book.edit(CLAY_FILE, "450 g", f"«incomplete-pack»{net}")
    book.add(CLAY_FILE, "density: 1.4 g/mL\n")  # which changes nothing: it is not poured
    book.shows(findings=2)


WRONG = {
    "a volume without a density": (
        DEVELOPER_FILE,
        "density: 1.02 g/mL\npack: {net: ",
        "pack: {net: «incomplete-pack»",
    ),
    "a supply by weight": (FOIL_FILE, "500 pieces", "«incomplete-pack»100 g"),
    "a price without its day": (CLAY_FILE, PRICED, "pack: «incomplete-pack?»{net: 450 g, price: 39.00}"),
}


@pytest.mark.parametrize("edit", WRONG.values(), ids=WRONG)
def test_what_cannot_be_priced(book: SmallBook, edit: Edit) -> None:
    book.shows(edit, findings=1)


def test_an_oil_by_volume_passes_with_a_density_and_not_without(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "form: clay", "form: oil")
    book.shows((CLAY_FILE, "450 g", "«incomplete-pack»500 mL"), findings=1)
    book.add(CLAY_FILE, "density: 0.98 g/mL\n")
    assert book.found() == []


RIGHT = {
    "pounds": (POWDER_FILE, "250 g", "0.5 lb"),
    "fluid ounces": (DEVELOPER_FILE, "1 L", "32 fl oz"),
    "one piece": (FOIL_FILE, "500 pieces", "1 piece"),
    "no pack": (CLAY_FILE, f"{PRICED}\n", ""),
    "a pack without a price": (FOIL_FILE, SUPPLIES, "pack: {net: 9 pieces}"),
}


@pytest.mark.parametrize("edit", RIGHT.values(), ids=RIGHT)
def test_what_passes(book: SmallBook, edit: Edit) -> None:
    book.shows(edit, findings=0)
