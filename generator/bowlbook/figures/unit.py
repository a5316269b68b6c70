"""Ounces, grams, millilitres and fluid ounces. ``oz`` is a weight, ``fl oz`` a volume, never mixed up.

Sources: international pound of 1959 (NIST Handbook 44, Appendix C): 1 lb = 453.59237 g exactly, 1 oz a
sixteenth of it. US gallon 231 cubic inches (same place): 1 US fl oz = 29.5735295625 mL exactly. Imperial
gallon 4.54609 L (UK Weights and Measures Act 1985): 1 imperial fl oz = 28.4130625 mL exactly.
"""

from fractions import Fraction

from bowlbook.reading.amount import Mass, Volume

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


def grams(mass: Mass) -> Fraction:
    """A weight in grams, exact."""
    return mass.number * GRAMS_PER[mass.unit]


def in_unit(mass: Mass, unit: str) -> Fraction:
    """A weight as a number of ``unit`` (oz, g, kg, lb), exact."""
    return grams(mass) / GRAMS_PER[unit]


def millilitres(volume: Volume) -> Fraction:
    """A volume in millilitres, exact."""
    return volume.number * millilitres_per(volume.unit)


def millilitres_per(unit: str) -> Fraction:
    """Millilitres in one unit of volume, exact; pints, quarts and gallons are those of pint's definitions."""
    if unit in MILLILITRES_PER:
        return MILLILITRES_PER[unit]
    from bowlbook.figures.trade_unit import millilitres_in  # pint takes 0.3 s to start, and few books need it

    return millilitres_in(unit)


def volume_of(mass_grams: Fraction, density: Fraction) -> Fraction:
    """Millilitres that a weight in grams takes up at ``density`` g/mL, exact."""
    return mass_grams / density


def us_fluid_ounces(volume_ml: Fraction) -> Fraction:
    """Millilitres as US fluid ounces, exact."""
    return volume_ml / MILLILITRES_PER["fl oz"]
