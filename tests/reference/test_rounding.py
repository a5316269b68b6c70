"""Shares that keep their sum, against the published Hamilton method and a reference library."""

import random
from fractions import Fraction

import pytest

from bowlbook.figures.rounding import shares
from bowlbook.figures.weigh_out import weigh_out

CENSUS_1790 = [
    630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236,
    179570, 141822, 85533, 70835, 68705, 68446, 55540,
]  # fmt: skip
SEATS_1790 = [11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1]


def test_census_of_1790() -> None:
    """Source: published table of the Hamilton method, United States census of 1790, 15 states, 60 seats."""
    assert shares(60, [Fraction(people) for people in CENSUS_1790]) == SEATS_1790


@pytest.mark.parametrize(("seats", "wanted"), [(25, [7, 7, 4, 3, 3, 1]), (26, [8, 8, 5, 2, 2, 1])])
def test_a_share_can_fall_while_the_total_rises(seats: int, wanted: list[int]) -> None:
    """Source: the library apportionment, for 1500 1500 900 500 500 200."""
    assert shares(seats, [Fraction(votes) for votes in (1500, 1500, 900, 500, 500, 200)]) == wanted


def test_against_the_library() -> None:
    """Source: the library apportionment, largest remainder (Hamilton), on a thousand random elections."""
    from apportionment.methods import compute

    draw = random.Random(1792)
    for _ in range(1000):
        votes = [draw.randint(1, 10_000) for _ in range(draw.randint(2, 9))]
        seats = draw.randint(1, 60)
        quotas = [Fraction(seats * each, sum(votes)) for each in votes]
        remainders = [quota - quota.numerator // quota.denominator for quota in quotas]
        if len(set(remainders)) < len(remainders):
            continue  # the library leaves ties to a rule of its own
        theirs = compute("hamilton", votes, seats, verbose=False)
        assert shares(seats, [Fraction(each) for each in votes]) == theirs


def test_thirds_go_to_the_first() -> None:
    """Thirds of 100.0 g on a scale of 0.1 g: 33.4, 33.3, 33.3. Source: the method's rule for ties here."""
    found = weigh_out(Fraction(100), [Fraction(1)] * 3, Fraction("0.1"))
    assert [each.weigh for each in found] == [Fraction("33.4"), Fraction("33.3"), Fraction("33.3")]
