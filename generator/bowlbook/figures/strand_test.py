"""The bowl for a strand test: the very mix, as small as the house's scale can weigh it truly."""

from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import Bowl, mix, weighing_in
from bowlbook.figures.unit import GRAMS_PER

GRAMS = Fraction(10)
"""The batch to start from, all the lightener or toner together. Common practice, no published source."""


def strand_test_bowl(book: Book, blend: Blend) -> Bowl | None:
    """The bowl of 10 g, or of the nearest larger size that the scale weighs within the house's tolerance.

    In grams where the house has a step for them, else in ounces, from the first whole step above 10 g. None
    where there is no such size within reach (`next_weighable_batch`).
    """
    unit = "g" if book.house.scale_step.g is not None else "oz"
    step = book.house.scale_step.of(unit)
    assert step is not None  # a house has a step for one of the two
    size = weighing_in(book, blend, GRAMS / GRAMS_PER[unit], step).next_weighable_batch
    return None if size is None else mix(book, blend, unit, size, step)
