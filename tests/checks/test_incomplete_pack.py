"""incomplete-pack: a net content that cannot be weighed, and a price without its day."""

import pytest

from checks.small_book import CLAY_FILE, DEVELOPER_FILE, FOIL_FILE, POWDER_FILE, SmallBook


@pytest.mark.parametrize("net", ["2 fl oz", "500 mL", "100 pieces"])
def test_powder_and_clay_are_sold_by_weight(book: SmallBook, net: str) -> None:
    book.edit(POWDER_FILE, "250 g", f"«incomplete-pack»{net}")
    book.edit(CLAY_FILE, "450 g", f"«incomplete-pack»{net}")
    book.add(CLAY_FILE, "density: 1.4 g/mL\n")  # which changes nothing: it is not poured
    book.shows(findings=2)


def test_a_volume_without_a_density(book: SmallBook) -> None:
    book.edit(DEVELOPER_FILE, "density: 1.02 g/mL\n", "")
    book.edit(DEVELOPER_FILE, "1 L", "«incomplete-pack»1 L")
    book.shows(findings=1)


def test_a_supply_is_counted(book: SmallBook) -> None:
    book.edit(FOIL_FILE, "500 pieces", "«incomplete-pack»100 g")
    book.shows(findings=1)


def test_a_price_without_its_day(book: SmallBook) -> None:
    book.edit(
        CLAY_FILE, "pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}",
        "pack: «incomplete-pack?»{net: 450 g, price: 39.00}",
    )  # fmt: skip
    book.shows(findings=1)


def test_what_can_be_weighed_passes(book: SmallBook) -> None:
    book.edit(POWDER_FILE, "250 g", "0.5 lb")
    book.edit(DEVELOPER_FILE, "1 L", "32 fl oz")
    book.edit(FOIL_FILE, "500 pieces", "1 piece")
    book.shows(findings=0)


def test_an_oil_by_volume_passes_with_a_density_and_not_without(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "form: clay", "form: oil")
    book.edit(CLAY_FILE, "450 g", "«incomplete-pack»500 mL")
    book.shows(findings=1)
    book.add(CLAY_FILE, "density: 0.98 g/mL\n")
    assert book.found() == []


def test_without_a_pack_there_is_nothing_to_say(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}\n", "")
    book.edit(
        FOIL_FILE, "pack: {net: 500 pieces, price: 19.00, priced_on: 2026-09-01}", "pack: {net: 9 pieces}"
    )
    book.shows(findings=0)
