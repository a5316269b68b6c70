"""A technique goes on the scalp, and nothing says how long that may be, or how long it is.

Why: the first parting waits while the last is applied; without both figures nobody is warned in time.
Source: the product's own `longest_on_scalp`, from its maker, or the house's own. Common practice, no
published source.
Wrong: `placement: on-scalp`, and no `longest_on_scalp` in the lightener or in `house.yml`; or no
`minutes_per_section` in its bowl.
Right: `longest_on_scalp: 50 minutes` in the house, and the minutes that one section takes.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.figures.time_on_hair import time_on_hair
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Warnings at the placement of a technique on the scalp."""
    if technique.placement != "on-scalp":
        return
    time = time_on_hair(book, technique)
    if time.limit is None:
        message = "This goes on the scalp, and nothing says how long it may stay there."
        mend = "Write longest_on_scalp in its lightener, from its maker, or in house.yml."
    elif time.applying is None:
        message = "This goes on the scalp, and how long applying takes is not known."
        mend = "Write sections and minutes_per_section in its bowls."
    else:
        return
    yield technique.source.objection(("placement",), message, mend, severity="warning")
