"""A developer's name says another volume than its field.

Why: the name is what is read on the bench, and every figure is made from the field.
Source: none needed; `40 volume`, `40 vol`, `20vol`, `vol 20` and `Developer 40` in its name or other names
are looked at, and only where all of them say one number.
Wrong: `name: Developer 40 volume` with `volume: 20`.
Right: read the strength off the bottle, then write it in both.
"""

import re
from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer, Product
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("product",)

SAID = (
    r"(?i)(?<![\d.,])([1-6]\d)(?:\s|-)?vol(?:umes?)?\b"
    r"|\bvol(?:ume)?\.?\s?([1-6]\d)(?![\d.,%]|\s?%)"
    r"|\bdeveloper,?[ -]([1-6]\d)$"
)


def find(book: Book, product: Product, today: date) -> Iterator[Finding]:
    """Findings at the volume."""
    if not isinstance(product, Developer):
        return
    names = (product.name, *product.other_names)
    said = {int(next(filter(None, hit.groups()))) for name in names for hit in re.finditer(SAID, name)}
    if len(said) == 1 and product.volume not in said:
        message = f"The name says {said.pop()} volume, and this says {plain(product.volume)}."
        mend = "Read the strength off the bottle, then write it in both."
        yield product.source.objection(("volume",), message, mend)
