"""A bowl as a person asks for it: weight with unit, step, developer by its id; and one for a strand test."""

from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import Bowl, developers_of, mix, weighing_in
from bowlbook.figures.unit import GRAMS_PER, in_unit
from bowlbook.reading.amount import Mass
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal

STRAND_TEST = Fraction(10)
"""Grams of lightener or toner that a bowl for a strand test has at least. Common practice, no published
source."""


class UnknownDeveloper(Refusal):
    """A developer that a blend does not allow: another strength is another recipe."""


def asked_bowl(book: Book, blend: Blend, batch: Mass, step: Mass | None, developer: str | None) -> Bowl:
    """One bowl, in ounces for a batch in ounces or pounds, else in grams.

    ``step``: the house's if left out; ``developer``: the blend's own if left out. Raises `Refusal` for a step
    in another unit than the batch or a step that nobody gave, `UnknownDeveloper`, and `CannotWeigh`.
    """
    unit = weighed_in(batch)
    if step is not None and weighed_in(step) != unit:
        message = f"The batch is in {unit} and the step in {step.unit}."
        raise Refusal("mixed-units", message, f"Give both in {unit}.")
    scale = book.house.scale_step.of(unit) if step is None else in_unit(step, unit)
    if scale is None:
        raise Refusal("missing-scale-step", f"The house has no scale step for {unit}.", "Give a step.")
    choices = {each.id: each for each in developers_of(book, blend)}
    if developer is not None and developer not in choices:
        message = f'"{developer}" is not a developer of {blend.name}.'
        raise UnknownDeveloper("unknown-id", message, did_you_mean(developer, choices))
    return mix(book, blend, unit, in_unit(batch, unit), scale, choices[developer] if developer else None)


def weighed_in(amount: Mass) -> str:
    """The unit that a bowl of this weight is weighed in: pounds in ``oz``, kilograms in ``g``."""
    return "oz" if amount.unit in ("oz", "lb") else "g"


def strand_test_bowl(book: Book, blend: Blend) -> Bowl | None:
    """The bowl for a strand test: the very mix, as small as the house's scale weighs it within its tolerance.

    Of 10 g, or of the nearest larger size. In grams where the house has a step for them, else in ounces, from
    the first whole step above 10 g. None where there is no such size within reach (`next_weighable_batch`).
    """
    unit = "g" if book.house.scale_step.g is not None else "oz"
    step = book.house.scale_step.of(unit)
    assert step is not None  # a house has a step for one of the two
    size = weighing_in(book, blend, STRAND_TEST / GRAMS_PER[unit], step).next_weighable_batch
    return None if size is None else mix(book, blend, unit, size, step)
