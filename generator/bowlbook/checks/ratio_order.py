"""A product's mixing ratio is outside its own range.

Why: the range is what every blend is held against.
Source: none needed; least developer first.
Wrong: `mixing_ratio: {usual: 1:3, from: 1:1.5, to: 1:2.5}`.
Right: `mixing_ratio: {usual: 1:2, from: 1:1.5, to: 1:2.5}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.product import Lightener, Product, Toner
from bowlbook.reading.finding import Finding

KINDS = ("product",)


def find(book: Book, product: Product, today: date) -> Iterator[Finding]:
    """Findings at the usual ratio."""
    if not isinstance(product, Lightener | Toner):
        return
    ratio = product.mixing_ratio
    least = ratio.from_ or ratio.usual
    most = ratio.to or ratio.usual
    if not least.value <= ratio.usual.value <= most.value:
        message = f"The usual ratio {ratio.usual} does not lie from {least} to {most}."
        mend = "Write the least developer under from and the most under to."
        yield product.source.objection(("mixing_ratio", "usual"), message, mend)
