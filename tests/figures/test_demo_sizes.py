"""The demo book's batch sizes: half, one and two ounces, 15, 30 and 60 g, on every blend and weighed right.

The sizes and the scale (0.01 oz, 0.1 g) are common practice in salons, no published source. The worked half
ounce on a coarse scale is the design's own example (section *The figures*, 4).
"""

from fractions import Fraction as F

import pytest

from bowlbook.figures.bowl import ladder_of, mix

SIZES = {"oz": (F("0.5"), F(1), F(2)), "g": (F(15), F(30), F(60))}
STEPS = {"oz": F("0.01"), "g": F("0.1")}


@pytest.mark.parametrize("unit", ["oz", "g"])
def test_every_blend_has_the_usual_sizes(demo_book, unit: str) -> None:
    assert len(demo_book.blends) > 15
    for blend in demo_book.blends.values():
        sizes = {batch for of, batch, _ in ladder_of(demo_book, blend) if of == unit}
        assert set(SIZES[unit]) <= sizes, blend.id


@pytest.mark.parametrize("unit", ["oz", "g"])
def test_each_reading_is_within_the_tolerance(demo_book, unit: str) -> None:
    """Additives too: the error of every reading, reckoned here from its exact weight, stays under 5 %."""
    for blend in demo_book.blends.values():
        for size in SIZES[unit]:
            bowl = mix(demo_book, blend, unit, size, STEPS[unit])
            for pour in bowl.pours:
                error = abs(pour.reading.weigh / pour.reading.exact - 1)
                assert error <= F(5, 100), (blend.id, size, pour.product.id, float(error))


def test_half_an_ounce_of_three_to_one_on_a_coarse_scale(demo_book) -> None:
    """3:1, 0.5 oz: 0.375 and 0.125 read 0.40 and 0.10 in steps of 0.05, 20 % off; 0.60 oz is the nearest."""

    def weighed(batch: str, step: str) -> tuple[list[F], F]:
        bowl = mix(demo_book, demo_book.blends["hairline-cool"], "oz", F(batch), F(step))
        return [pour.reading.weigh for pour in bowl.pours[:2]], bowl.worst_error

    assert weighed("0.5", "0.05") == ([F("0.40"), F("0.10")], F("0.2"))
    assert weighed("0.55", "0.05")[1] > F("0.05")
    assert weighed("0.60", "0.05") == ([F("0.45"), F("0.15")], 0)
    assert weighed("0.5", "0.01") == ([F("0.38"), F("0.12")], F("0.04"))
