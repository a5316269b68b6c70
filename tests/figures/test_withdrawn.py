"""What is retired, or mixed with something retired, is no answer; what takes its place is."""

import pytest

from bowlbook import match
from bowlbook.figures.bowl import developers_of
from bowlbook.figures.developer import stand_in
from checks.small_book import BLEND, BLEND_FILE, POWDER_FILE, TECHNIQUE_FILE, SmallBook

RETIRED = "retired: {on: 2026-10-02, because: Its maker has stopped.}\n"


def answers(book: SmallBook) -> set[tuple[str, str]]:
    """Kind and id of what suits a head that everything of the small book is for."""
    read = book.read()
    found = match(read, {"natural_level": 7, "lift": 2, "texture": "fine", "placement": "open-air"}).suiting
    return {(each.candidate.kind, each.candidate.id) for each in found}


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    book.write(
        "blends/clay-alone.yml",
        BLEND.replace("Soft clay three to one", "Clay alone").replace(
            "  - {product: powder, parts: 1}\n", ""
        ),
    )
    return book


def test_before(book: SmallBook) -> None:
    pair = {("pair", "soft-clay"), ("technique", "painting"), ("blend", "soft-clay")}
    assert answers(book) == {*pair, ("blend", "clay-alone")}


@pytest.mark.parametrize("path", [BLEND_FILE, POWDER_FILE])
def test_a_blend_that_is_retired_or_holds_what_is(book: SmallBook, path: str) -> None:
    book.add(path, RETIRED)
    assert answers(book) == {("blend", "clay-alone")}


def test_a_technique(book: SmallBook) -> None:
    book.add(TECHNIQUE_FILE, RETIRED)
    assert answers(book) == {("blend", "soft-clay"), ("blend", "clay-alone")}


def test_a_developer_that_may_stand_in(book: SmallBook) -> None:
    for volume in (10, 30):
        book.write(
            f"products/developer-{volume}.yml",
            f"name: Another, {volume} volume\nkind: developer\nvolume: {volume}\n",
        )
    book.edit(BLEND_FILE, "product: developer-20}", "product: developer-20, also: [developer-10]}")
    read = book.read()
    assert [each.id for each in developers_of(read, read.blends["soft-clay"])] == [
        "developer-20",
        "developer-10",
    ]
    assert stand_in(read, read.developer("developer-20")) is not None
    book.add("products/developer-10.yml", RETIRED)
    read = book.read()
    assert [each.id for each in developers_of(read, read.blends["soft-clay"])] == ["developer-20"]
    assert stand_in(read, read.developer("developer-20")) is None
