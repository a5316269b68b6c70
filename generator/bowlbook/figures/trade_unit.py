"""Pints, quarts and gallons, US and imperial, in millilitres, exact, as the pint library defines them.

It defines the US gallon as 231 cubic inches (NIST Handbook 44, Appendix C) and the imperial one as 4.54609 L
(UK Weights and Measures Act 1985), and calculates with fractions here.
"""

from fractions import Fraction
from functools import cache

import pint

NAMES = {
    "US pint": "US_pint",
    "US quart": "US_liquid_quart",
    "US gallon": "US_liquid_gallon",
    "imperial pint": "imperial_pint",
    "imperial quart": "imperial_quart",
    "imperial gallon": "imperial_gallon",
}
"""Each unit of `bowlbook.reading.read_amount.TRADE_UNITS`, as pint names it: the liquid one."""


@cache
def millilitres_in(unit: str) -> Fraction:
    """Millilitres in one of `NAMES`. Raises KeyError for any other."""
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
    number = registry.Quantity(Fraction(1), NAMES[unit]).to("milliliter").magnitude
    assert isinstance(number, Fraction)
    return number
