"""A blend asks for more of one additive than of lightener and developer together.

Why: an additive's share is written in two ways. Here 1:20 is lightener to additive, 20 parts of the additive
to 1 of lightener; where 1 part to 20 of lightener was meant, the bowl holds 400 times too much.
Source: common practice, no published source. A lightening bowl has at most as much of anything else in it as
of lightener and developer together. A toning bowl may be thinned further, up to the additive's own `dose`.
Wrong: `ratio: 1:20`, for 1 part of the additive to 20 of lightener.
Right: `ratio: 20:1`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Additive
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Warnings at the additive's ratio; what is over the additive's own dose is `additive_over_dose`'s."""
    base = "toner" if blend.tones else "lightener"
    for index, each in enumerate(blend.additives):
        product, ratio = book.products[each.product], each.ratio
        dose = product.dose if isinstance(product, Additive) else None
        settled = dose is not None and (blend.tones or ratio.value > dose.value)
        if ratio.value > 1 + blend.developer.ratio.value and not settled:
            additive, rest = plain(ratio.right), plain(ratio.left)
            yield blend.source.objection(
                ("additives", index, "ratio"),
                f"{ratio} is {additive} parts of {product.name} to {rest} of {base}, "
                f"more than {base} and developer together.",
                f"If {rest} to {additive} of {base} is meant, write {additive}:{rest}.",
                severity="warning",
            )
