"""A developer's percentage does not go with its volumes.

Why: one of the two is a slip, and the peroxide in every bowl is worked out from it.
Source: the trade's nominal map, 10/20/30/40 volume are 3/6/9/12 %; a tenth either way is let pass, which
the exact map (1 volume is 0.3035 % w/v) does too.
Wrong: `volume: 20` and `peroxide: 9 %`.
Right: `volume: 20` and `peroxide: 6 %`.
"""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer, Product
from bowlbook.figures.peroxide import nominal_percent
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("product",)


def find(book: Book, product: Product, today: date) -> Iterator[Finding]:
    """Findings at the percentage."""
    if not isinstance(product, Developer) or product.peroxide is None:
        return
    nominal = nominal_percent(product.volume)
    if abs(product.peroxide - nominal) > nominal * Fraction(1, 10):
        yield product.source.objection(
            ("peroxide",),
            f"{plain(product.volume)} volume is nominally {plain(nominal)} %, "
            f"not {plain(product.peroxide)} %.",
            "Read both off the bottle.",
        )
