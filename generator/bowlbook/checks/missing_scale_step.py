"""A unit has batches but no scale step, or the batch sizes are out of order.

Why: without the step nothing can be weighed, and the unit's tables would silently be missing.
Source: none needed.
Wrong: `batches: {oz: [0.5, 1]}` with `scale_step: {g: 1}`; `batches: {g: [30, 15]}`.
Right: `scale_step: {oz: 0.05, g: 1}`; `batches: {g: [15, 30]}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.house import House
from bowlbook.entries.ladder import UNITS
from bowlbook.reading.finding import Finding

KINDS = ("house", "blend")


def find(book: Book, owner: House | Blend, today: date) -> Iterator[Finding]:
    """Findings at the unit's batches, in the house and in blends with sizes of their own."""
    for unit in UNITS:
        batches = owner.batches.of(unit) if owner.batches else ()
        if batches and book.house.scale_step.of(unit) is None:
            message = f"There are batches in {unit}, and the house has no scale step for {unit}."
            mend = f"Add it to the house's scale_step, as {unit}: {'0.05' if unit == 'oz' else '1'}."
            yield owner.source.objection(("batches", unit), message, mend)
        if list(batches) != sorted(set(batches)):
            message = "Batch sizes go from the smallest to the largest, each once."
            yield owner.source.objection(("batches", unit), message, "Put the batches in order.")
