"""The unit that a house reads weights in: the one that it has batch sizes in."""

from fractions import Fraction

from bowlbook.entries.house import House
from bowlbook.figures.rounding import fixed
from bowlbook.figures.unit import GRAMS_PER


def weight_units(house: House) -> tuple[str, ...]:
    """The units, g and oz in this order, in which the house has batch sizes: at least one."""
    return tuple(unit for unit in ("g", "oz") if house.batches.of(unit))


def weight_text(house: House, weight: Fraction, places: int) -> str:
    """A weight in grams as text in the first of `weight_units`, rounded half up.

    ``places``: decimals in grams. Ounces always have two: a hundredth of an ounce is 0.28 g.
    """
    unit = weight_units(house)[0]
    return f"{fixed(weight / GRAMS_PER[unit], places if unit == 'g' else 2)} {unit}"
