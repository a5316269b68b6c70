"""Which two developers stand in for a third, and what each developer makes of a bowl."""

from dataclasses import replace
from fractions import Fraction as F

from generator.entries.product import Developer
from generator.figures.bowl import developers_of, mix
from generator.figures.developer import peroxide_by_developer, stand_in


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
