"""Peroxide against chemistry, the regulation's own pairing, and the densities of solutions."""

from fractions import Fraction

import pytest

from bowlbook.entries.product import Developer
from bowlbook.figures.peroxide import nominal_percent, peroxide_in_bowl


def exact_percent(volume: float) -> float:
    """Per cent w/v of a strength in volumes: O2 at 0 degrees and 1 atm, 2 H2O2 to 2 H2O + O2.

    Source: scipy's molar volume of an ideal gas (22.414 L/mol), molmass' molar mass of hydrogen peroxide.
    """
    import molmass
    import scipy.constants

    litres = scipy.constants.physical_constants["molar volume of ideal gas (273.15 K, 101.325 kPa)"][0] * 1000
    return volume * 2 * molmass.Formula("H2O2").mass / litres / 10


def test_one_volume() -> None:
    """Source: the same, as the list of check values gives it: 0.303513 % w/v."""
    assert exact_percent(1) == pytest.approx(0.303513, abs=2e-6)


@pytest.mark.parametrize(("volume", "percent"), [(10, 3), (20, 6), (30, 9), (40, 12)])
def test_nominal_map(volume: int, percent: int) -> None:
    """Source: Regulation (EC) 1223/2009, Annex III, entry 12 as replaced by Regulation (EU) 2019/831, pairs
    12 % with 40 volumes; the others are in proportion. The nominal map is within 1.2 % of the exact one."""
    assert nominal_percent(Fraction(volume)) == percent
    assert float(nominal_percent(Fraction(volume))) == pytest.approx(exact_percent(volume), rel=0.012)


def test_the_exact_map_would_break_the_limit_it_is_paired_with() -> None:
    """The trap: 40 volume is 12.14 % w/v exactly, so the tool declares the nominal map."""
    assert exact_percent(40) > 12


@pytest.mark.parametrize(
    ("ratio", "percents"),
    [(1, ["1.5", "3", "4.5", "6"]), (2, ["2", "4", "6", "8"])],
)
def test_in_the_bowl(ratio: int, percents: list[str]) -> None:
    """Source: arithmetic on a mass basis, 10/20/30/40 volume at 1:1 and 1:2."""
    for strength, percent in zip((3, 6, 9, 12), percents, strict=True):
        found = peroxide_in_bowl(Fraction(strength), Fraction(ratio), Fraction(1 + ratio))
        assert found == Fraction(percent)


def test_densities_of_the_demo_developers(demo_book) -> None:
    """Source: thermo's Laliberte density of water with hydrogen peroxide at 20 degrees, to 0.5 %."""
    from thermo.electrochem import Laliberte_density

    seen = 0
    for product in demo_book.products.values():
        if isinstance(product, Developer):
            fraction = float(product.peroxide_percent) / 100
            reference = Laliberte_density(T=293.15, ws=[fraction], CASRNs=["7722-84-1"]) / 1000
            assert float(product.density) == pytest.approx(reference, rel=0.005)
            seen += 1
    assert seen >= 5
