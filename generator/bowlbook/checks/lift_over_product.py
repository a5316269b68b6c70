"""A blend promises more levels of lift than its strongest lightener gives.

Why: somebody will leave it on for longer to get there.
Source: the lightener's own `lifts`, from its maker.
Wrong: `suits: {lift: 1-7}` with lighteners that lift 5.
Right: `suits: {lift: 1-5}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.reading.amount import counted
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Warnings at the blend's levels of lift."""
    most = max((book.lightener(each.product).lifts for each in blend.lighteners), default=0)
    if blend.suits.lift is not None and blend.suits.lift.high > most:
        levels = counted(most, "level")
        message = f"A lift of {blend.suits.lift} is more than any lightener in it gives ({levels})."
        mend = f"Promise at most {levels}."
        yield blend.source.objection(("suits", "lift"), message, mend, severity="warning")
