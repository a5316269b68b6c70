"""A batch size holds more lightener than fits one bowl.

Why: a slip of the unit (30 oz for 30 g) makes 28 times the bowl that was meant; it overflows, or stands until
it is spent.
Source: the house's own `largest_batch`; left out, 500 g of lightener, common practice, no published source.
Wrong: `batches: {oz: [15, 30, 60]}`, where grams were meant.
Right: `batches: {g: [15, 30, 60]}`, or `largest_batch: 2 kg` in the house where such bowls are mixed.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.house import House
from bowlbook.entries.ladder import UNITS
from bowlbook.figures.bowl import largest_batch, over_bowl
from bowlbook.figures.unit import weight_text
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("house", "blend")


def find(book: Book, owner: House | Blend, today: date) -> Iterator[Finding]:
    """Warnings at each size, in the house and in blends with their own sizes."""
    for unit in UNITS:
        for index, batch in enumerate(owner.batches.of(unit) if owner.batches else ()):
            if over_bowl(book.house, unit, batch):
                yield owner.source.objection(
                    ("batches", unit, index),
                    f"{plain(batch)} {unit} of lightener is more than fits one bowl "
                    f"({weight_text(book.house, largest_batch(book.house), 0)}).",
                    "Check the unit; where such bowls are mixed, give the house a largest_batch.",
                    severity="warning",
                )
