"""A bowl as a person asks for it: a weight with its unit, a scale's step, a developer by its id."""

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import Bowl, developers_of, mix
from bowlbook.figures.unit import in_unit
from bowlbook.reading.amount import Mass
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal


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
