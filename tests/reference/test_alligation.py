"""Two strengths to a third, against published worked examples (read on their pages)."""

from fractions import Fraction

import pytest

from bowlbook.figures.peroxide import Alligation, alligation, mixed_strength


@pytest.mark.parametrize(
    ("weaker", "stronger", "wanted", "parts"),
    [
        (50, 95, 70, (5, 4)),  # published pharmacy handout: 95 % and 50 % to 70 % is 4 : 5
        (20, 70, 30, (4, 1)),  # published pharmacy page: 70 % and 20 % to 30 % is 1 : 4
        (10, 30, 20, (1, 1)),  # published pharmacy page: 30 % and 10 % to 20 % is 1 : 1
    ],
)
def test_published_examples(weaker: int, stronger: int, wanted: int, parts: tuple[int, int]) -> None:
    assert alligation(Fraction(weaker), Fraction(stronger), Fraction(wanted)) == Alligation(*parts)


def test_three_strengths() -> None:
    """Source: published university module: 50 %, 20 % and 5 % in parts 1 : 1 : 10 give 10 %."""
    parts = [(Fraction(1), Fraction(50)), (Fraction(1), Fraction(20)), (Fraction(10), Fraction(5))]
    assert mixed_strength(parts) == 10


def test_weighted_mean() -> None:
    """Source: published handout: 3000 mL of 40 %, 1000 of 60 % and 1000 of 70 % give 50 %."""
    amounts = [(Fraction(3000), Fraction(40)), (Fraction(1000), Fraction(60)), (Fraction(1000), Fraction(70))]
    assert mixed_strength(amounts) == 50


def test_rounding_last() -> None:
    """70 % and water to 1000 mL of 25 %: 357.143 mL (5/14). A published page answers 360, having rounded
    first."""
    parts = alligation(Fraction(0), Fraction(70), Fraction(25))
    share = Fraction(parts.stronger, parts.stronger + parts.weaker)
    assert share == Fraction(5, 14)
    assert float(1000 * share) == pytest.approx(357.143, abs=0.001)


@pytest.mark.parametrize("wanted", [3, 6, 2, 7])
def test_a_target_outside_the_two_is_refused(wanted: int) -> None:
    with pytest.raises(ValueError, match="between"):
        alligation(Fraction(3), Fraction(6), Fraction(wanted))


def test_the_parts_give_the_strength() -> None:
    for wanted in (Fraction(4), Fraction("7.5"), Fraction("11.9")):
        parts = alligation(Fraction(3), Fraction(12), wanted)
        mixture = [(Fraction(parts.weaker), Fraction(3)), (Fraction(parts.stronger), Fraction(12))]
        assert mixed_strength(mixture) == wanted
