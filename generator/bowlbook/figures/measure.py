"""A weight in a house's own measures: to a quarter of one, beside the scale's figure."""

from fractions import Fraction

from bowlbook.entries.measure import Measure, Measures
from bowlbook.entries.product import Product
from bowlbook.figures.bowl import density_of
from bowlbook.figures.rounding import half_up
from bowlbook.figures.unit import weight_of


def measured(measures: Measures, product: Product, weight: Fraction) -> tuple[Fraction, Measure] | None:
    """How many of a product's measure a weight in grams is, rounded half up to a quarter.

    The first measure that names the product. None without one, where it holds a volume and the product's
    density is not known, and where less than an eighth of it is meant.
    """
    measure = next((each for each in measures if product.id in each.of), None)
    holds = measure and weight_held([measure], product)
    quarters = half_up(weight / holds * 4) if holds else 0
    return (Fraction(quarters, 4), measure) if measure and quarters else None


def weight_held(measures: Measures, product: Product) -> Fraction | None:
    """What a product weighs, in grams, in the first of the measures that names it.

    None without one, and where it holds a volume and the product's density is not known.
    """
    holds = next((each.holds for each in measures if product.id in each.of), None)
    return None if holds is None else weight_of(holds, density_of(product))
