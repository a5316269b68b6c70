"""Something in a batch of the ladder is so little that the scale would read zero.

Why: it would be left out, or guessed.
Source: the house's `scale_step`; figure 1 of the design.
Wrong: parts 20:1 in a batch of 0.5 oz on a scale with steps of 0.05 oz.
Right: a larger batch in the blend's own `batches`, or fewer parts.
"""

from collections.abc import Iterator
from datetime import date

from generator.book.book import Book
from generator.entries.blend import Blend
from generator.entries.product import Product
from generator.figures.bowl import CannotWeigh, dishonest_sizes, mix
from generator.reading.amount import plain
from generator.reading.finding import Finding
from generator.reading.source import Loc

BY_ENTRY = True


def find(book: Book, today: date) -> Iterator[Finding]:
    """Findings at the product that would read zero, one for each batch."""
    for blend in book.blends.values():
        for unit, _, batch, step in dishonest_sizes(book, blend):
            try:
                mix(book, blend, unit, batch, step)
            except CannotWeigh as zero:
                yield blend.source.finding(
                    _mention(blend, zero.product),
                    "zero-reading",
                    f"In a batch of {plain(batch)} {unit} the scale would read zero for {zero.product.name} "
                    f"(steps of {plain(step)} {unit}).",
                    "Give the blend its own larger batches, or change its parts.",
                )


def _mention(blend: Blend, product: Product) -> Loc:
    for index, share in enumerate(each.product for each in blend.shares):
        if share == product.id:
            return ("toners" if blend.tones else "lighteners", index, "product")
    for index, additive in enumerate(blend.additives):
        if additive.product == product.id:
            return ("additives", index, "product")
    return ("developer", "product")
