"""What a bowl costs, and that it adds up."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from bowlbook.entries.product import Pack
from bowlbook.figures.bowl import ladder_of, mix
from bowlbook.figures.cost import bill, price_per_gram, price_per_piece
from bowlbook.reading.amount import Count, Mass, Volume

money = st.integers(0, 10**7).map(lambda n: F(n, 977))


@given(st.lists(money, min_size=1, max_size=9), st.sampled_from([0, 2, 3, 4]))
def test_lines_add_up_to_the_total_and_stay_within_a_unit(costs: list[F], places: int) -> None:
    found = bill(costs, places)
    assert sum(found.lines) == found.total
    exact = sum(costs) * 10**places
    assert found.total - F(1, 2) <= exact < found.total + F(1, 2)
    for line, cost in zip(found.lines, costs, strict=True):
        assert abs(line - cost * 10**places) < 2


def test_price_by_weight_volume_and_piece() -> None:
    assert price_per_gram(Pack(net=Mass(F(450), "g"), price=F(39)), None) == F(39, 450)
    assert price_per_gram(Pack(net=Volume(F(1), "L"), price=F("14.5")), F("1.02")) == F("14.5") / 1020
    assert price_per_gram(Pack(net=Volume(F(1), "L"), price=F(1)), None) is None
    assert price_per_gram(Pack(net=Count(5), price=F(1)), None) is None
    assert price_per_gram(Pack(net=Mass(F(1), "g")), None) is None
    assert price_per_piece(Pack(net=Count(500), price=F(31))) == F(31, 500)


def test_every_bowl_of_the_demo_book_adds_up(demo_book) -> None:
    seen = 0
    for blend in demo_book.blends.values():
        for unit, batch, step in ladder_of(demo_book, blend):
            bowl = mix(demo_book, blend, unit, batch, step)
            assert bowl.bill is not None
            assert sum(each.cost for each in bowl.pours) == bowl.bill.total
            assert bowl.pours[-1].scale_shows == bowl.total
            seen += 1
    assert seen > 80
