"""Units against the definitions and the reference libraries."""

from fractions import Fraction

import pytest
import scipy.constants

from bowlbook.figures.unit import GRAMS_PER, MILLILITRES_PER, grams, in_unit, millilitres, us_fluid_ounces
from bowlbook.reading.amount import Mass, Volume


def test_ounce_by_definition() -> None:
    """Source: international pound of 1959, NIST Handbook 44, Appendix C: 1 lb = 453.59237 g, 16 oz to it."""
    assert GRAMS_PER["oz"] == Fraction("453.59237") / 16 == Fraction("28.349523125")
    assert GRAMS_PER["lb"] == Fraction("453.59237")


def test_fluid_ounces_by_definition() -> None:
    """Source: US gallon of 231 cubic inches, 2.54 cm to the inch; imperial gallon of 4.54609 L."""
    assert MILLILITRES_PER["fl oz"] == 231 * Fraction("2.54") ** 3 / 128
    assert MILLILITRES_PER["imperial fl oz"] == Fraction("4546.09") / 160


@pytest.mark.parametrize(
    ("ours", "theirs"),
    [
        (GRAMS_PER["oz"] / 1000, scipy.constants.oz),
        (GRAMS_PER["lb"] / 1000, scipy.constants.lb),
        (MILLILITRES_PER["fl oz"] / 10**6, scipy.constants.fluid_ounce_US),
        (MILLILITRES_PER["imperial fl oz"] / 10**6, scipy.constants.fluid_ounce_imp),
    ],
)
def test_against_scipy(ours: Fraction, theirs: float) -> None:
    """Source: scipy.constants, in kg and cubic metres."""
    assert float(ours) == pytest.approx(theirs, rel=1e-15)


def test_against_pint() -> None:
    """Source: pint's unit definitions, reckoned with Fractions."""
    import pint

    registry = pint.UnitRegistry(non_int_type=Fraction)
    for ours, name, to in (
        (GRAMS_PER["oz"], "ounce", "gram"),
        (GRAMS_PER["lb"], "pound", "gram"),
        (MILLILITRES_PER["fl oz"], "fluid_ounce", "milliliter"),
        (MILLILITRES_PER["imperial fl oz"], "imperial_fluid_ounce", "milliliter"),
    ):
        assert registry.Quantity(Fraction(1), name).to(to).magnitude == ours


def test_a_fluid_ounce_is_not_an_ounce() -> None:
    """1 US fl oz of water at 20 degrees weighs 1.0413 oz. Source: density 0.998207 g/mL by CoolProp, as the
    list of check values gives the 29.520 g; recalled, not run here."""
    water = millilitres(Volume(Fraction(1), "fl oz")) * Fraction("0.998207")
    assert float(water) == pytest.approx(29.520, abs=0.001)
    assert float(in_unit(Mass(water, "g"), "oz")) == pytest.approx(1.0413, abs=0.0001)


def test_there_and_back_is_exact() -> None:
    assert in_unit(Mass(grams(Mass(Fraction("0.7"), "oz")), "g"), "oz") == Fraction("0.7")
    assert us_fluid_ounces(millilitres(Volume(Fraction(3), "fl oz"))) == 3
