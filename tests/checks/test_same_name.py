"""same-name: two entries of a kind with names that are taken for one another."""

import pytest

from checks.small_book import FOIL, SITUATION, TECHNIQUE_FILE, SmallBook


@pytest.mark.parametrize("name", ["Foil, wide", "foil wide", "FOIL-WIDE", "  Foil ,  wide", "Foil (wide)"])
def test_the_same_name(book: SmallBook, name: str) -> None:
    spare = FOIL.replace("name: Foil, wide", f'name: «same-name?»"{name}"')
    book.write("products/foil-2.yml", spare)
    book.edit(TECHNIQUE_FILE, "{product: foil,", "{product: foil-2, count: 3}\n  - {product: foil,")
    book.shows(findings=1)


def test_an_accent_sets_two_words_apart_no_less_than_on_a_keyboard(book: SmallBook) -> None:
    first = FOIL.replace("Foil, wide", "Crème")
    book.write("products/cream-a.yml", first)
    book.write(
        "products/cream-b.yml",
        FOIL.replace("Foil, wide", "Cre\u0300me").replace("name: ", "name: «same-name?»"),
    )
    book.edit(
        TECHNIQUE_FILE,
        "{product: foil,",
        "{product: cream-a, count: 3}\n  - {product: cream-b, count: 3}\n  - {product: foil,",
    )
    book.shows(findings=1)


@pytest.mark.parametrize("name", ["Foil, narrow", "Foil, wide 2"])
def test_what_sets_them_apart_passes(book: SmallBook, name: str) -> None:
    book.write("products/foil-2.yml", FOIL.replace("Foil, wide", name))
    book.edit(TECHNIQUE_FILE, "{product: foil,", "{product: foil-2, count: 3}\n  - {product: foil,")
    book.shows(findings=0)


def test_two_kinds_may_share_a_name(book: SmallBook) -> None:
    book.write(
        "situations/open-painting.yml",
        SITUATION.replace("Fine hair, a little lighter", "Open painting"),
    )
    book.shows(findings=0)
