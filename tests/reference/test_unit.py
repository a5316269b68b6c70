"""Units against the definitions and the reference libraries."""

import json
from fractions import Fraction
from pathlib import Path

import pytest
import scipy.constants
from tests.site.small_site import python

from bowlbook.figures.unit import GRAMS_PER, MILLILITRES_PER, grams, in_unit, millilitres, us_fluid_ounces
from bowlbook.reading.amount import Mass, Volume
from bowlbook.reading.read_amount import read_net
from bowlbook.reading.refusal import Refusal
from checks.small_book import SmallBook
from seeds import rows_with_long


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


@pytest.mark.parametrize(
    "unit, exact",
    rows_with_long(
        [("US pint", "473.176473"), ("imperial gallon", "4546.09")],
        [
            ("US quart", "946.352946"),
            ("US gallon", "3785.411784"),
            ("imperial pint", "568.26125"),
            ("imperial quart", "1136.5225"),
        ],
    ),
)
def test_what_the_trade_sells_in(unit: str, exact: str) -> None:
    """Source: NIST Handbook 44, Appendix C (US gallon of 231 cubic inches, quart a quarter, pint an eighth of
    it), its digits from memory; UK Weights and Measures Act 1985 (gallon of 4.54609 dm3). Both gallons are
    held against scipy.constants, too."""
    assert millilitres(Volume(Fraction(3), unit)) == 3 * Fraction(exact)
    inch = Fraction("2.54")
    gallon = 231 * inch**3 if unit.startswith("US") else Fraction("4546.09")
    parts = {"gallon": 1, "quart": 4, "pint": 8}[unit.split()[1]]
    assert millilitres(Volume(Fraction(parts), unit)) == gallon
    known = scipy.constants.gallon_US if unit.startswith("US") else scipy.constants.gallon_imp
    assert float(gallon) / 10**6 == pytest.approx(known, rel=1e-12)


@pytest.mark.parametrize("text", ["1 pint", "2 pints", "1 qt", "1 gal.", "0.5 gallons", "1 Quart"])
def test_which_pint_is_not_guessed(text: str) -> None:
    with pytest.raises(Refusal, match="not certain"):
        read_net(text)


@pytest.mark.parametrize(
    "text, unit",
    [("1 US pint", "US pint"), ("2 us quarts", "US quart"), ("0.5 imperial gallons", "imperial gallon")],
)
def test_a_pack_of_pints(text: str, unit: str) -> None:
    net = read_net(text)
    assert isinstance(net, Volume) and net.unit == unit


def test_pint_is_loaded_only_where_a_pack_says_one(tmp_path: Path) -> None:
    """And the price of a gram is then that of the exact volume."""
    book = SmallBook(tmp_path / "recipes")
    code = "import sys; from bowlbook.commands import main; main(sys.argv[1:], standalone_mode=False)"
    code += "; print('pint' in sys.modules)"
    words = ("-c", code, "mix", "soft-clay", "--batch=1oz", "--json", f"--recipes={book.root}")
    assert python(*words).stdout.endswith("False\n")
    book.edit("products/developer-20.yml", "net: 1 L", "net: 1 US quart")
    said = python(*words).stdout
    assert said.endswith("True\n")
    poured = json.loads(said.removesuffix("True\n"))["pours"][-1]
    weighed = Fraction(poured["weigh"]) * Fraction("28.349523125")
    exact = Fraction("14.50") / (Fraction("946.352946") * Fraction("1.02")) * weighed
    assert abs(Fraction(poured["cost"]) - exact) <= Fraction(1, 100)
