"""name-against-volume: a developer whose name says another strength than its field."""

import pytest

from checks.small_book import DEVELOPER_FILE, FOIL_FILE, SmallBook


@pytest.mark.parametrize(
    "name",
    [
        "Developer 40 volume",
        "Developer 40 volumes",
        "Cream, 40 vol",
        "Cream 40vol",
        "Cream 40-volume",
        "Cream vol. 40",
        "CREAM VOL 40",
        "Developer 40",
        "Developer, 40",
        "Cream developer-40",
    ],
)
def test_another_volume(book: SmallBook, name: str) -> None:
    book.edit(DEVELOPER_FILE, "name: Developer 20", f"name: {name}")
    book.edit(DEVELOPER_FILE, "volume: 20", "volume: «name-against-volume»20")
    book.shows(findings=1)


@pytest.mark.parametrize(
    "name",
    [
        "Developer 20 volume",
        "Twenty",
        "Cream 12 %",
        "Developer 6 %",
        "Developer 1000 mL",
        "Volume 2",  # no strength has one digit: the second of a set
        "Developer 10 to 40 volume, 20 vol",  # two numbers: not certain
        "Developer 40 in a 20 volume set",
        "4020 volume",
    ],
)
def test_the_same_volume_or_none_for_certain(book: SmallBook, name: str) -> None:
    book.edit(DEVELOPER_FILE, "name: Developer 20", f'name: "{name}"')
    book.shows(findings=0)


def test_other_names_count_and_other_products_do_not(book: SmallBook) -> None:
    book.edit(FOIL_FILE, "name: Foil, wide", "name: Foil for 40 volume")
    book.edit(DEVELOPER_FILE, "name: Developer 20", "name: Clear developer")
    book.add(DEVELOPER_FILE, "other_names: [Strong one, 40 vol]\n")
    book.edit(DEVELOPER_FILE, "volume: 20", "volume: «name-against-volume»20")
    book.shows(findings=1)
