"""Additives that rounding to the scale puts over their maker's dose."""

from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Additive, Product
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.weighing import Weighing
from bowlbook.reading.amount import plain


class OverDose(NamedTuple):
    """An additive that the scale's reading puts over its maker's dose; weights and step in ``unit``."""

    product: Product
    weigh: Fraction
    most: Fraction
    unit: str
    step: Fraction

    def __str__(self) -> str:
        weight = fixed(self.weigh, decimals_of(self.step))
        most = plain(self.most, 4)
        return f"{weight} {self.unit} of {self.product.name} is over its maker’s dose, {most} {self.unit}."


def over_dose(book: Book, blend: Blend, unit: str, weighing: Weighing) -> tuple[OverDose, ...]:
    """The additives whose reading is more than their maker's dose for the lightener as weighed."""
    bases = len(blend.shares)
    found = []
    # Not strict: where a pour reads zero there are no readings at all.
    for each, reading in zip(blend.additives, weighing.readings[bases + 1 :], strict=False):
        product = book.additive(each.product)
        dose = product.dose if isinstance(product, Additive) else None  # a toner is added in drops
        if dose is not None:
            most = dose.value * weighing.scale_shows[bases - 1]
            if reading.weigh > most:
                found.append(OverDose(product, reading.weigh, most, unit, weighing.step))
    return tuple(found)
