"""Ounces, grams, millilitres and fluid ounces. ``oz`` is a weight, ``fl oz`` a volume, never mixed up.

Sources: international pound of 1959 (NIST Handbook 44, Appendix C): 1 lb = 453.59237 g exactly, 1 oz a
sixteenth of it. US gallon 231 cubic inches (same place): 1 US fl oz = 29.5735295625 mL exactly. Imperial
gallon 4.54609 L (UK Weights and Measures Act 1985): 1 imperial fl oz = 28.4130625 mL exactly. Pints, quarts
and gallons are by these definitions of the gallons, as the pint library has them.
"""

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from bowlbook.entries.house import House
from bowlbook.figures.rounding import fixed
from bowlbook.reading.amount import Mass, Volume

if TYPE_CHECKING:
    from pint import UnitRegistry

GRAMS_PER: dict[str, Fraction] = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "oz": Fraction("28.349523125"),
    "lb": Fraction("453.59237"),
}
MILLILITRES_PER: dict[str, Fraction] = {
    "mL": Fraction(1),
    "L": Fraction(1000),
    "fl oz": Fraction("29.5735295625"),
    "imperial fl oz": Fraction("28.4130625"),
}
TRADE_UNITS = {
    "US pint": "US_pint",
    "US quart": "US_liquid_quart",
    "US gallon": "US_liquid_gallon",
    "imperial pint": "imperial_pint",
    "imperial quart": "imperial_quart",
    "imperial gallon": "imperial_gallon",
}
"""The units of `bowlbook.reading.read_amount.TRADE_UNITS` by pint's names: the liquid ones."""


def grams(mass: Mass) -> Fraction:
    """A weight in grams, exact."""
    return mass.number * GRAMS_PER[mass.unit]


def in_unit(mass: Mass, unit: str) -> Fraction:
    """A weight as a number of ``unit`` (oz, g, kg, lb), exact."""
    return mass.number if mass.unit == unit else grams(mass) / GRAMS_PER[unit]


def millilitres(volume: Volume) -> Fraction:
    """A volume in millilitres, exact."""
    return volume.number * millilitres_per(volume.unit)


def millilitres_per(unit: str) -> Fraction:
    """Millilitres in one unit of volume, exact."""
    return MILLILITRES_PER.get(unit) or _trade_millilitres(unit)


@cache
def _trade_millilitres(unit: str) -> Fraction:
    """Millilitres in one of `TRADE_UNITS`. Raises KeyError for any other."""
    number = _registry().Quantity(Fraction(1), TRADE_UNITS[unit]).to("milliliter").magnitude
    assert isinstance(number, Fraction)
    return number


@cache
def _registry() -> "UnitRegistry[Fraction]":
    import pint  # takes 0.3 s to start and as long for a registry, and few books need it

    return pint.UnitRegistry(non_int_type=Fraction)


def weight_of(amount: Mass | Volume, density: Fraction | None) -> Fraction | None:
    """An amount in grams, exact; a volume through ``density`` (g/mL), None where that is not known."""
    if isinstance(amount, Mass):
        return grams(amount)
    return None if density is None else millilitres(amount) * density


def volume_of(mass_grams: Fraction, density: Fraction) -> Fraction:
    """Millilitres that a weight in grams takes up at ``density`` g/mL, exact."""
    return mass_grams / density


def us_fluid_ounces(volume_ml: Fraction) -> Fraction:
    """Millilitres as US fluid ounces, exact."""
    return volume_ml / MILLILITRES_PER["fl oz"]


def weight_units(house: House) -> tuple[str, ...]:
    """The units, g and oz in this order, in which the house has batch sizes: at least one."""
    return tuple(unit for unit in ("g", "oz") if house.batches.of(unit))


def weight_text(house: House, weight: Fraction, places: int) -> str:
    """A weight in grams as text in the first of `weight_units`, rounded half up.

    ``places``: decimals in grams. Ounces always have two: a hundredth of an ounce is 0.28 g.
    """
    unit = weight_units(house)[0]
    return f"{fixed(weight / GRAMS_PER[unit], places if unit == 'g' else 2)} {unit}"
