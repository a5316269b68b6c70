"""A blend takes less or more developer than one of its lighteners or toners allows.

Why: too little and it dries and stops; too much and it runs, and burns where it should not.
Source: the lightener's own `mixing_ratio`, from its maker's instructions.
Wrong: `ratio: 1:3` with a clay of `{usual: 1:2, from: 1:1.5, to: 1:2.5}`.
Right: `ratio: 1:2`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Findings at the blend's ratio, one for each product that does not allow it."""
    ratio = blend.developer.ratio
    for each in blend.shares:
        base = book.base(each.product)
        allowed = base.mixing_ratio
        if (allowed.from_ and ratio.value < allowed.from_.value) or (
            allowed.to and ratio.value > allowed.to.value
        ):
            if allowed.from_ and allowed.to and allowed.from_.value > allowed.to.value:
                continue  # a finding at the product itself
            ends = [f"{word} {end}" for word, end in (("from", allowed.from_), ("to", allowed.to)) if end]
            message = f"{ratio} is outside the range of {base.name} ({' '.join(ends)})."
            mend = f"Its usual ratio is {allowed.usual}."
            yield blend.source.objection(("developer", "ratio"), message, mend)
