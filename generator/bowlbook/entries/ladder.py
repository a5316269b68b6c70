"""A ladder of batches: the sizes of bowl that a house or a blend is mixed in, per unit."""

from fractions import Fraction
from typing import Annotated

from bowlbook.entries.amounts import number
from bowlbook.entries.entry import Part, Reads, said
from bowlbook.reading.quantity import bounded, read_number
from bowlbook.reading.refusal import Refusal

UNITS = ("oz", "g")


def read_batch(text: str) -> Fraction:
    """A batch inside a ladder: a bare number, since the unit is the ladder's key."""
    if any(sign.isalpha() for sign in text) and not text.strip().lower().startswith(("nan", "inf")):
        message = "A batch size is a bare number; the unit is the key above it."
        raise Refusal("wrong-unit", message, "Write it as 0.5 under oz, or 15 under g.")
    size = read_number(text, wanted="a batch", example="0.5")
    return bounded(size, Fraction(1, 100), 10_000, "")


def read_step(text: str) -> Fraction:
    """A scale's step inside ``scale_step``: a bare number, since the unit is its key."""
    if any(sign.isalpha() for sign in text):
        raise Refusal("wrong-unit", "A step is a bare number; the unit is its key.", "Write it as oz: 0.05.")
    step = read_number(text, wanted="a scale's step", example="0.05")
    return bounded(step, Fraction(1, 1000), 100, "")


Step = Annotated[Fraction, Reads(read_step, number(0.001, 100, "0.05", "1"))]
Batch = Annotated[Fraction, Reads(read_batch, number(0.01, 10_000, "0.5", "15"))]


class Ladder(Part):
    """Batches by unit, as ``{oz: [0.5, 1, 2], g: [15, 30, 60]}``."""

    oz: tuple[Batch, ...] = said("Batches in ounces (avoirdupois).", public=True, default=())
    g: tuple[Batch, ...] = said("Batches in grams.", public=True, default=())

    def __post_init__(self) -> None:
        if not self.oz and not self.g:
            mend = "Write sizes, as {oz: [0.5, 1, 2]}, or delete the key."
            raise Refusal("empty-value", "No size stands here.", mend)

    def of(self, unit: str) -> tuple[Fraction, ...]:
        """The batches in ``oz`` or ``g``."""
        return self.oz if unit == "oz" else self.g
