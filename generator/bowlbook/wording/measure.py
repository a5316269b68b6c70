"""A weight in a house's own measures, in words."""

from collections.abc import Sequence
from fractions import Fraction

from bowlbook.entries.measure import Measure
from bowlbook.entries.product import Product
from bowlbook.figures.measure import measured
from bowlbook.reading.amount import counted


def measure_words(measures: Sequence[Measure], product: Product, weight: Fraction) -> str | None:
    """A weight in grams, as ``about 1.75 scoops``; None where the house has no measure for the product."""
    found = measured(measures, product, weight)
    return None if found is None else f"about {counted(found[0], *found[1].forms)}"
