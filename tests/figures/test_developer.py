"""Which two developers stand in for a third, and what each developer makes of a bowl."""

from dataclasses import replace
from fractions import Fraction as F

import pytest

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer
from bowlbook.figures.bowl import developers_of, mix
from bowlbook.figures.developer import peroxide_by_developer, stand_in, stand_in_bowl, stand_in_for
from bowlbook.pages.stand_in import stand_in_sentences, stand_in_tables
from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, POWDER_FILE, SmallBook


def shelf(book, *strengths: str):
    """The book with these developers only: ``id volume``."""
    model = next(each for each in book.products.values() if isinstance(each, Developer))
    products = {}
    for text in strengths:
        name, volume = text.split()
        made = replace(model, volume=F(volume), peroxide=None)
        made.placed(name, model.source)
        products[name] = made
    return replace(book, products=products)


def test_the_nearest_weaker_and_stronger_by_weight(demo_book) -> None:
    """20 volume from 10 and 30 in equal parts, nominally 3, 6 and 9 %: alligation alternate, done by hand."""
    book = shelf(demo_book, "a 5", "b 10", "c 20", "d 30", "e 40")
    found = stand_in(book, book.products["c"])
    assert found is not None
    assert (found.weaker.id, found.stronger.id) == ("b", "d")
    assert found.parts.weaker == found.parts.stronger
    found = stand_in(shelf(demo_book, "b 10", "c 20", "e 40"), book.products["c"])
    assert found is not None
    assert found.parts.weaker / found.parts.stronger == 2  # (12 - 6) : (6 - 3)


def test_of_equal_strengths_the_first_by_id(demo_book) -> None:
    book = shelf(demo_book, "z 10", "y 10", "c 20", "x 40", "w 40")
    found = stand_in(book, book.products["c"])
    assert found is not None and (found.weaker.id, found.stronger.id) == ("y", "w")


def test_nothing_weaker_or_nothing_stronger(demo_book) -> None:
    book = shelf(demo_book, "b 10", "c 20", "d 20", "e 40")
    assert stand_in(book, book.products["b"]) is None
    assert stand_in(book, book.products["e"]) is None
    assert stand_in(book, book.products["d"]) is not None


def test_each_developer_of_a_bowl_its_own_first(demo_book) -> None:
    seen = 0
    for blend in demo_book.blends.values():
        bowl = mix(demo_book, blend, "g", F(60), F(1))
        rows = peroxide_by_developer(demo_book, bowl)
        assert [each.id for each, _ in rows] == [blend.developer.product, *blend.developer.also]
        assert [each for each, _ in rows] == list(developers_of(demo_book, blend))
        assert rows[0][1] == bowl.peroxide
        for each, percent in rows:
            used = next(pour.reading.weigh for pour in bowl.pours if pour.role == "developer")
            total = sum(pour.reading.weigh for pour in bowl.pours)
            assert percent == used * each.peroxide_percent / total
            seen += 1
    assert seen > 15


SHELF = """\
name: Developer {volume}
kind: developer
volume: {volume}
{more}
"""


def with_shelf(book: SmallBook, shelf: dict[int, str], *edits: tuple[str, str, str]) -> Book:
    """The small book with these developers beside its own of 20 volume, edited."""
    for volume, more in shelf.items():
        book.write(f"products/developer-{volume}.yml", SHELF.format(volume=volume, more=more))
    return book.read(*edits)


def pair(book: Book) -> tuple[str, str] | None:
    blend = book.blends["soft-clay"]
    found = stand_in_for(book, blend, book.developer("developer-20"))
    return None if found is None else (found.weaker.id, found.stronger.id)


ON_SCALP = (
    (BLEND_FILE, "placement: [open-air]", "placement: [open-air, on-scalp]"),
    (CLAY_FILE, "placement: [open-air]", "placement: [open-air, on-scalp]"),
    (POWDER_FILE, "placement: [open-air, foil]", "placement: [open-air, on-scalp]"),
)


def test_no_bottle_over_the_houses_limit_goes_into_a_bowl_for_the_scalp(small: SmallBook) -> None:
    """20 volume on a scalp (common practice, no published source): 10 and 30 make it; 30 is not poured."""
    shelf = {10: "", 30: ""}
    assert pair(with_shelf(small, shelf)) == ("developer-10", "developer-30")
    book = small.read(*ON_SCALP)
    assert pair(book) is None
    [table] = stand_in_tables(book, book.blends["soft-clay"])
    assert (table.name, table.rows) == ("Developer 20", ())
    higher = (HOUSE_FILE, "on_scalp_developer_limit: 20", "on_scalp_developer_limit: 30")
    assert pair(small.read(higher)) == ("developer-10", "developer-30")


def test_a_blend_that_does_not_say_where_it_goes_may_go_on_the_scalp(small: SmallBook) -> None:
    unsaid = (BLEND_FILE, "  placement: [open-air]\n", "")
    # Its lighteners say that they are not for the scalp.
    assert pair(with_shelf(small, {10: "", 30: ""}, unsaid)) == ("developer-10", "developer-30")
    assert pair(small.read(*ON_SCALP[1:])) is None


def test_a_bottle_that_is_made_for_other_places_is_passed_over(small: SmallBook) -> None:
    shelf = {10: "placement: [foil]", 5: "placement: [open-air]", 30: "placement: [foil, open-air]"}
    assert pair(with_shelf(small, shelf)) == ("developer-5", "developer-30")


@pytest.mark.parametrize(("limit", "found"), [(30, ("developer-10", "developer-30")), (29, None)])
def test_no_bottle_over_the_limit_of_a_lighteners_maker(
    small: SmallBook, limit: int, found: tuple[str, str] | None
) -> None:
    edit = (CLAY_FILE, "developer_limit: 40 volume", f"developer_limit: {limit} volume")
    assert pair(with_shelf(small, {10: "", 30: ""}, edit)) == found


def test_weighed_into_a_bowl_in_whole_steps(small: SmallBook) -> None:
    """20 volume (6 %) from 5 and 40 (1.5 and 12 %): 6 : 4.5 = 4 : 3. For 20 g of lightener at 1:2 that is
    40 g: 22.857 and 17.143, read 23 and 17 by largest remainder; 20 + 23 = 43 and 60 on the scale. They make
    (23 x 1.5 + 17 x 12) / 40 = 5.9625 %. By hand; alligation as in tests/reference."""
    book = with_shelf(small, {5: "", 40: ""})
    blend = book.blends["soft-clay"]
    found = stand_in_for(book, blend, book.developer("developer-20"))
    assert found is not None and found.parts == (4, 3)
    weighed = stand_in_bowl(found, mix(book, blend, "g", F(20), F(1)))
    assert weighed is not None
    assert (weighed.weigh, weighed.scale_shows) == ((23, 17), (43, 60))
    assert weighed.percent == F("5.9625")
    assert weighed.error == 1 - 17 / F(120, 7)
    [table] = stand_in_tables(book, blend)
    row = next(row for row in table.rows if row.size == "20 g")
    assert (row.pours, row.remark) == ((("43", "23"), ("60", "17")), None)


@pytest.mark.parametrize(
    ("shelf", "pours", "remark"),
    [
        # 4.571 and 3.429 read 5 and 3, 12.5 % off
        ({5: "", 40: ""}, (("9", "5"), ("12", "3")), "12.5 % off"),
        # 20 volume from 1 and 21 (0.3 and 6.3 %): one part in twenty of 8 g is 0.4 g, which reads nothing
        ({1: "", 21: ""}, (), "too little for this scale"),
    ],
)
def test_what_rounding_does_to_a_small_one_is_said(
    small: SmallBook, shelf: dict[int, str], pours: tuple[tuple[str, str], ...], remark: str
) -> None:
    """4 g of lightener at 1:2 take 8 g."""
    book = with_shelf(small, shelf, (HOUSE_FILE, "g: [20, 40]", "g: [4]"))
    [table] = stand_in_tables(book, book.blends["soft-clay"])
    row = table.rows[-1]
    assert (row.size, row.pours, row.remark) == ("4 g", pours, remark)


def test_a_developers_page_says_where_its_stand_in_may_go(small: SmallBook) -> None:
    """On the scalp 30 volume is over the house's limit; for the largest size 2 oz and 40 g, one to one."""
    book = with_shelf(small, {10: "", 30: "", 18: "placement: [on-scalp]"})
    assert stand_in_sentences(book, book.developer("developer-20")) == [
        "For open-air and foil use: 1 part Developer 10 to 1 part Developer 30, by weight; "
        "for 2 oz weigh 1.00 and 1.00 oz; for 40 g weigh 20 and 20 g."
    ]
    assert stand_in_sentences(book, book.developer("developer-18")) == [
        "For on-scalp use: 1 part Developer 10 to 4 parts Developer 20, by weight; "
        "for 2 oz weigh 0.40 and 1.60 oz; for 40 g weigh 8 and 32 g."
    ]
