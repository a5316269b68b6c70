"""look-alike-id: two ids of a kind that are read as one another."""

import pytest

from checks.small_book import FOIL, TECHNIQUE_FILE, SmallBook


def with_second(book: SmallBook, entry_id: str, name: str) -> None:
    book.write(f"products/{entry_id}.yml", FOIL.replace("Foil, wide", name))
    book.edit(TECHNIQUE_FILE, "count: 10}", f"count: 10}}\n  - {{product: {entry_id}, count: 2}}")


@pytest.mark.parametrize("entry_id", ["fo1l", "fol1", "f-oil", "f0il", "fol-i"])
def test_it_looks_like_foil(book: SmallBook, entry_id: str) -> None:
    first, second = sorted(["foil", entry_id])
    with_second(book, entry_id, "Another")
    if second == "foil":
        book.edit("products/foil.yml", "name: ", "name: «look-alike-id?»")
    else:
        book.edit(f"products/{entry_id}.yml", "name: ", "name: «look-alike-id?»")
    found = book.shows(findings=1)
    assert f'"{first}"' in found[0].message


@pytest.mark.parametrize("entry_id", ["foil-2", "fool", "foils", "clay-foil"])
def test_it_does_not(book: SmallBook, entry_id: str) -> None:
    with_second(book, entry_id, "Another")
    book.shows(findings=0)


def test_two_kinds_may_share_one(book: SmallBook) -> None:
    book.write("products/soft-c1ay.yml", FOIL.replace("Foil, wide", "Strip"))
    book.edit(TECHNIQUE_FILE, "count: 10}", "count: 10}\n  - {product: soft-c1ay, count: 2}")
    book.shows(findings=0)
