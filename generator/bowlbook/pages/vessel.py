"""A bowl as a standing vessel: each pour as high as its share of the weight, the first at the bottom."""

from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Additive, Developer, Lightener, Product, Toner
from bowlbook.figures.exact_sum import in_common
from bowlbook.figures.proportion import parts_in_bowl
from bowlbook.figures.rounding import half_up, half_up_of
from bowlbook.reading.amount import counted

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
LETTER = Fraction(3, 10)
"""A letter's height in rows of the table that the vessel stands beside, which has a row for each pour."""


class Layer(NamedTuple):
    """One pour. ``mix``: the name of its colour. ``y`` from the top, ``height``: per cent of the vessel.

    ``middle``: where its letter stands; empty where it is too thin for one.
    """

    letter: str
    mix: str
    y: str
    height: str
    middle: str = ""


class Vessel(NamedTuple):
    """A vessel's layers in pouring order, and the same in words."""

    layers: tuple[Layer, ...]
    words: str


def mix_of(product: Product) -> str:
    """The name of a product's colour, as in ``--mix-violet``: of its pigment, else of its form."""
    if isinstance(product, Developer):
        return "developer"
    if isinstance(product, Additive):
        return "additive"
    if isinstance(product, Lightener | Toner) and product.pigment not in (None, "none"):
        return str(product.pigment)
    return product.form if isinstance(product, Lightener) else "toner"


def vessel_of(book: Book, blend: Blend) -> Vessel:
    """The vessel of a blend with its first developer. Per cent are rounded half up to a hundredth."""
    products: list[Product] = [book.base(each.product) for each in blend.shares]
    products.append(book.developer(blend.developer.product))
    products += [book.additive(each.product) for each in blend.additives]
    parts = parts_in_bowl(blend)
    whole, _ = in_common(parts)
    total = above = sum(whole)
    layers, words = [], []
    for letter, product, part, share in zip(LETTERS, products, whole, parts, strict=False):
        above -= part
        middle = _percent(2 * above + part, 2 * total) if part * len(parts) >= LETTER * total else ""
        layers.append(Layer(letter, mix_of(product), _percent(above, total), _percent(part, total), middle))
        words.append(f"{letter} {counted(Fraction(half_up(share * 100), 100), 'part')}")
    return Vessel(tuple(layers), f"The bowl by weight: {', '.join(words)}")


def _percent(part: int, total: int) -> str:
    return f"{half_up_of(part * 10000, total) / 100:g}%"
