"""A developer is stronger than the maker of a lightener or toner allows with it.

Why: the maker has tried it and says no: swelling, heat, breakage.
Source: the lightener's own `developer_limit`, from its maker's instructions.
Wrong: `developer_limit: 20 volume` on a lightener, 30 volume in a blend with it.
Right: 20 volume or less.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.checks.developer_over_house_limit import developers_with_places
from bowlbook.entries.blend import Blend
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Findings at each developer over the limit of anything it is mixed with."""
    bases = [book.base(each.product) for each in blend.shares]
    for loc, entry_id in developers_with_places(blend):
        volume = book.developer(entry_id).volume
        for base in bases:
            limit = base.developer_limit
            if limit is not None and volume > limit:
                message = f"{plain(volume)} volume is over the limit of {base.name}."
                mend = f"Use {plain(limit)} volume or less with it."
                yield blend.source.objection(loc, message, mend)
                break
