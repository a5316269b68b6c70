"""Bowls worked by hand. Common practice, no published source, unless a test says otherwise."""

from fractions import Fraction as F

from bowlbook.figures.weigh_out import pour, running_totals, weigh_out
from bowlbook.figures.weighing import next_weighable_batch, worst_error

STEP = F("0.05")


def test_three_quarters_clay() -> None:
    """1 oz as three quarters clay and one quarter pigmented powder: 0.75 and 0.25; at 1:2 it takes 2 oz of
    developer; the scale shows 0.75, 1.00, 3.00. Common practice, no published source."""
    lighteners = weigh_out(F(1), [F(3), F(1)], STEP)
    developer = pour(sum(each.weigh for each in lighteners), F(2), STEP)
    weights = [*(each.weigh for each in lighteners), developer.weigh]
    assert weights == [F("0.75"), F("0.25"), F(2)]
    assert running_totals(weights) == [F("0.75"), F(1), F(3)]


def test_the_design_s_example() -> None:
    """Parts 3:1, 0.5 oz, step 0.05 oz: 0.375 and 0.125 read 0.40 and 0.10, worst error 20 %, nearest
    weighable size 0.60 oz (0.45 and 0.15). Source: the design's worked example, section The figures, 4."""
    lighteners = weigh_out(F("0.5"), [F(3), F(1)], STEP)
    assert [each.exact for each in lighteners] == [F("0.375"), F("0.125")]
    assert [each.weigh for each in lighteners] == [F("0.40"), F("0.10")]
    developer = pour(F("0.5"), F(2), STEP)
    assert worst_error([*lighteners, developer]) == F(1, 5)
    found = next_weighable_batch(F("0.5"), [F(3), F(1)], [F(2)], STEP, F(5, 100))
    assert found == F("0.60")
    assert [each.weigh for each in weigh_out(found, [F(3), F(1)], STEP)] == [F("0.45"), F("0.15")]


def test_the_first_bowl_of_the_demo_book(demo_book) -> None:
    """Two parts to one in 0.60 oz at 1:2: the scale shows 0.40, 0.60, 1.80, worked by hand."""
    from bowlbook.figures.bowl import mix

    bowl = mix(demo_book, demo_book.blends["cool-foil-coarse"], "oz", F("0.6"), STEP)
    assert [each.scale_shows for each in bowl.pours] == [F("0.40"), F("0.60"), F("1.80")]
    assert bowl.peroxide == 4
    assert bowl.within_tolerance


def test_a_developer_in_millilitres_and_fluid_ounces(demo_book) -> None:
    """1.20 oz of 6 % developer at 1.020 g/mL: 34.019... g are 33.35 mL, 1.128 US fl oz, worked by hand from
    28.349523125 g and 29.5735295625 mL."""
    from bowlbook.figures.bowl import mix

    bowl = mix(demo_book, demo_book.blends["cool-foil-coarse"], "oz", F("0.6"), STEP)
    developer = bowl.pours[2]
    assert round(float(developer.millilitres), 2) == 33.35
    assert round(float(developer.us_fluid_ounces), 3) == 1.128
