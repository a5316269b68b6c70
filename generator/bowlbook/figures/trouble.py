"""Which troubles an entry's page names: those that can come from it, or from what is in it."""

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import PLACEMENTS
from bowlbook.entries.product import Product
from bowlbook.entries.technique import Technique
from bowlbook.entries.trouble import AT_RISK, ComesFrom, Trouble


def gravest_first(book: Book) -> list[Trouble]:
    """Every trouble of the book: the person's first, then the hair's, then the bowl's; by name and id."""
    return sorted(
        current(book.troubles).values(),
        key=lambda each: (AT_RISK.index(each.at_risk), each.name.casefold(), each.id),
    )


def troubles_of(book: Book, entry: Technique | Blend | Product) -> list[Trouble]:
    """The troubles that can come from a technique, a blend or a product, the gravest first.

    One that does not say where it comes from belongs to every technique and blend. A technique has those of
    its placement, of its blends and of what is in them; a blend those of its products and, where it lightens,
    of the placements that it is for; all of them where it names none.
    """
    return [each for each in gravest_first(book) if _comes_from(book, each.comes_from, entry)]


def _comes_from(book: Book, origin: ComesFrom | None, entry: Technique | Blend | Product) -> bool:
    if isinstance(entry, Product):
        return origin is not None and entry.id in origin.products
    if origin is None or origin == ComesFrom():
        return True
    if isinstance(entry, Blend):
        placements = set(entry.suits.placement or PLACEMENTS)
        placed = not entry.tones and bool(set(origin.placement) & placements)
        return placed or _is_in(origin, entry)
    return (
        entry.placement in origin.placement
        or entry.id in origin.techniques
        or any(_is_in(origin, book.blends[bowl.blend]) for bowl in entry.bowls)
    )


def _is_in(origin: ComesFrom, blend: Blend) -> bool:
    """Whether a blend, or a product that goes into it, is where the trouble comes from."""
    products = {blend.developer.product, *(each.product for each in (*blend.shares, *blend.additives))}
    return blend.id in origin.blends or bool(products & set(origin.products))
