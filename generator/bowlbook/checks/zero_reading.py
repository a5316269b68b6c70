"""Something in one of the batch sizes is so little that the scale would read zero.

Why: it would be left out, or guessed.
Source: the house's `scale_step`; figure 1 of the design.
Wrong: parts 20:1 in a batch of 0.5 oz on a scale with steps of 0.05 oz.
Right: a larger batch in the blend's own `batches`, or fewer parts.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import unweighable_sizes
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Findings at the product that would read zero, one for each batch."""
    for unit, _, weighing in unweighable_sizes(book, blend):
        pour = weighing.reads_zero
        if pour is not None:
            mentions = _mentions(blend)
            product_id = mentions[pour][1]
            loc = next(loc for loc, each in mentions if each == product_id)
            yield blend.source.objection(
                loc,
                f"In a batch of {plain(weighing.batch)} {unit} the scale would read zero for "
                f"{book.products[product_id].name} (steps of {plain(weighing.step)} {unit}).",
                "Give the blend its own larger batches, or change its parts.",
            )


def _mentions(blend: Blend) -> list[tuple[Loc, str]]:
    """The way to each pour's product, and its id, in pouring order."""
    key = "toners" if blend.tones else "lighteners"
    ids = [each.product for each in blend.shares]
    return [
        *(((key, place, "product"), each) for place, each in enumerate(ids)),
        (("developer", "product"), blend.developer.product),
        *((("additives", place, "product"), each.product) for place, each in enumerate(blend.additives)),
    ]
