"""The house's scale cannot weigh a batch size closely enough.

Why: rounding to the scale changes the recipe by more than the house's tolerance; the bowl is another one.
Additives count: 1 g read for 0.5 g is twice the maker's dose.
Source: the house's `scale_step` and `rounding_tolerance`; figure 4 of the design.
Wrong: parts 3:1 in a batch of 0.5 oz on a scale with steps of 0.05 oz: 0.40 and 0.10, 20 % off.
Right: a batch of 0.6 oz (0.45 and 0.15), in the house's batch sizes or in the blend's own `batches`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import unweighable_sizes
from bowlbook.figures.over_dose import over_dose
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Warnings at the blend's parts (or its own batches), one for each batch."""
    for unit, index, weighing in unweighable_sizes(book, blend):
        if weighing.reads_zero is not None:
            continue
        own = blend.batches is not None and bool(blend.batches.of(unit))
        nearest = weighing.next_weighable_batch
        batch, step = f"{plain(weighing.batch)} {unit}", f"{plain(weighing.step)} {unit}"
        places = decimals_of(weighing.step)
        mend = (
            f"The nearest size this scale can weigh is {fixed(nearest, places)} {unit}; "
            "give the blend its own batches, or change the parts."
            if nearest is not None
            else "Change the parts, or weigh on a finer scale."
        )
        yield blend.source.objection(
            ("batches", unit, index) if own else (("toners" if blend.tones else "lighteners"),),
            f"{batch} cannot be weighed in steps of {step}: "
            f"{fixed(weighing.worst_error * 100, 1)} % off, and the house allows "
            f"{plain(book.house.rounding_tolerance)} %."
            + "".join(f" {each}" for each in over_dose(book, blend, unit, weighing)),
            mend,
            severity="warning",
        )
