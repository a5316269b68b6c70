"""A price is older than the house lets prices be.

Why: a service is sold at a loss before anybody sees it.
Source: the house's `prices_stale_after`.
Wrong: `priced_on` more than that many days ago.
Right: look the price up, then write it with its day.
"""

from collections.abc import Iterator
from datetime import date, timedelta

from bowlbook.book.book import Book
from bowlbook.entries.product import Pack, Product, packs_of
from bowlbook.reading.finding import Finding

KINDS = ("product",)


def stale_on(book: Book, product: Product) -> date | None:
    """The first day on which a product's price is stale; None without a dated price."""
    return _stale_on(book, product.pack)


def _stale_on(book: Book, pack: Pack | None) -> date | None:
    if pack is None or pack.price is None or pack.priced_on is None:
        return None
    return pack.priced_on + timedelta(days=book.house.prices_stale_after + 1)


def find(book: Book, product: Product, today: date) -> Iterator[Finding]:
    """Warnings at the price's day, also of another supplier's."""
    for loc, pack in packs_of(product):
        day = _stale_on(book, pack)
        if day is None or day > today:
            continue
        message = f"This price has been stale since {day.isoformat()}."
        mend = "Look it up, then write the price and its day."
        yield product.source.objection((*loc, "priced_on"), message, mend, severity="warning")
