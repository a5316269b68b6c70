"""A pack's content cannot be turned into what the figures need.

Why: without a weight, or a volume and a density, a bowl has no cost; and powder sold in fluid ounces is a
weight misread.
Source: none needed; a supply is counted, the rest is weighed or measured.
Wrong: `net: 2 fl oz` for a powder, `net: 1 L` without `density`, `net: 100 g` for foils.
Right: `net: 450 g`; `net: 1 L` and `density: 1.02 g/mL`; `net: 500 pieces`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.product import Lightener, Product, Supply, packs_of
from bowlbook.figures.bowl import density_of
from bowlbook.reading.amount import Count, Mass, Volume
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.finding import Finding

KINDS = ("product",)


def find(book: Book, product: Product, today: date) -> Iterator[Finding]:
    """Findings at the net content; a warning at a price without its day; packs of other suppliers."""
    suppliers: list[str] = []
    for loc, pack in packs_of(product):
        wrong = _wrong(product, pack.net)
        if wrong is not None:
            yield product.source.objection((*loc, "net"), *wrong)
        if pack.price is not None and pack.priced_on is None:
            yield product.source.objection(
                loc, "This price has no day.", "Add priced_on, as priced_on: 2026-09-01.", severity="warning"
            )
        supplier = bare_name(pack.supplier or "")
        if loc != ("pack",) and (not supplier or supplier in suppliers):
            message = "This supplier has a pack here already." if supplier else "No supplier is written here."
            mend = "Write one pack for each supplier, and supplier: in each."
            yield product.source.objection((*loc, "supplier"), message, mend)
        suppliers.append(supplier)


def _wrong(product: Product, net: Mass | Volume | Count) -> tuple[str, str] | None:
    if isinstance(product, Supply):
        if not isinstance(net, Count):
            return "A supply is counted.", "Write its net content as 500 pieces."
    elif isinstance(net, Count):
        return f"A {product.kind} is weighed, not counted.", "Write its net content as 450 g."
    elif isinstance(net, Volume):
        if isinstance(product, Lightener) and product.form in ("powder", "clay"):
            return f"A {product.form} is sold by weight; {net} is a volume.", "Write it as 450 g or 16 oz."
        if density_of(product) is None:
            return (
                "It is sold by volume and has no density, so it cannot be weighed.",
                "Add density, as density: 1.02 g/mL.",
            )
    return None
