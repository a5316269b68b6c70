"""What checks of wording must know of the whole book: prices, and names that are private. Not a check itself.

Gathered once a book, and handed on to a part of it that is checked by itself.
"""

from fractions import Fraction
from typing import cast

from bowlbook.book.book import Book

Facts = tuple[tuple[Fraction, ...], tuple[str, ...]]
"""Every price of a pack, and everybody named under ``reviewed`` and ``supplier``: each once, in order."""


def facts_of(book: Book) -> Facts:
    """The facts of a book, or those that were handed to it. A partial entry adds what could be read of it."""
    if "facts" not in book.worked_out:
        packs = [vars(pack) for each in book.products.values() if (pack := vars(each).get("pack"))]
        prices = {price for pack in packs if (price := pack.get("price")) is not None}
        names = {
            *(each.by for each in book.outlines().values() if each.by),
            *(supplier for pack in packs if (supplier := pack.get("supplier"))),
        }
        book.worked_out["facts"] = (tuple(sorted(prices)), tuple(sorted(names)))
    return cast(Facts, book.worked_out["facts"])


def hand_on(book: Book, part: Book) -> None:
    """Let a part of a book know the facts of the whole."""
    part.worked_out["facts"] = facts_of(book)
