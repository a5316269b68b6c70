"""A blend is meant for a placement that one of its lighteners is not made for.

Why: an off-scalp lightener burns skin; a runny one creeps out of a foil.
Source: the lightener's own `placement`, from its maker's instructions.
Wrong: `suits: {placement: [on-scalp]}` with a powder whose placement is `[foil]`.
Right: a lightener made for the scalp.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Findings at the lightener that does not allow the placement."""
    for index, each in enumerate(blend.lighteners):
        lightener = book.lightener(each.product)
        barred = [word for word in blend.suits.placement if word not in lightener.placement]
        if barred:
            yield blend.source.objection(
                ("lighteners", index, "product"),
                f"{lightener.name} is not made for {', '.join(barred)} use.",
                f"It is made for: {', '.join(lightener.placement)}. "
                "Take another lightener, or change what the blend suits.",
            )
