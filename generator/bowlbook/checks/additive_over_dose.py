"""An additive goes into a blend in a larger share than its maker's dose.

Why: more bond additive slows the lift and thins the mix; more pigment stains.
Source: the product's own `dose`, from its maker's instructions.
Wrong: `dose: 8:1` on the product and `ratio: 4:1` in the blend.
Right: `ratio: 8:1`, or less additive, such as `10:1`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Additive
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Findings at the additive's ratio."""
    for index, each in enumerate(blend.additives):
        product = book.products[each.product]
        dose = product.dose if isinstance(product, Additive) else None
        if dose is not None and each.ratio.value > dose.value:
            message = f"{each.ratio} is more {product.name} than its dose of {dose}."
            mend = f"Write {dose}, or less of it."
            yield blend.source.objection(("additives", index, "ratio"), message, mend)
