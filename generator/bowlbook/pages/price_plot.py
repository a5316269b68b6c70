"""A product's prices over time: a small plot, and the table under it that says the same."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.price_history import Price
from bowlbook.entries.product import Pack, Product
from bowlbook.figures.bowl import density_of
from bowlbook.figures.cost import price_per_gram, price_per_piece
from bowlbook.figures.unit import GRAMS_PER
from bowlbook.pages.drawing import Drawing, drawing_of
from bowlbook.wording.amount import shown_amount
from bowlbook.wording.locale_format import LocaleFormat

PER = {"g": "100 g", "oz": "ounce"}
WIDTH, HEIGHT, LEFT, TOP = 300, 90, 10, 20
"""The field of the plot, and the room at its left and above it, in units of the drawing."""


class PricedDay(NamedTuple):
    """A day, the pack, its price, and that of `per_amount`, a dash where it is not known."""

    day: str
    net: str
    price: str
    by_amount: str


class PriceHistory(NamedTuple):
    """The rows, newest first. ``plot``: None where the price by amount of one is not known."""

    rows: list[PricedDay]
    plot: Drawing | None


def history_of(
    product: Product, prices: Sequence[Price], formats: LocaleFormat, unit: str = "g"
) -> PriceHistory | None:
    """The history of a product's prices, oldest first; None for fewer than two.

    Prices are compared by 100 g, where ``unit`` is g; by the ounce, where it is oz; or by 100 pieces.
    """
    if len(prices) < 2:
        return None
    values = [price_by_amount(product, Pack(net=each.net, price=each.price), unit) for each in prices]
    rows = [
        PricedDay(
            formats.day(each.day),
            shown_amount(each.net),
            formats.price(each.price),
            "–" if value is None else formats.price(value),
        )
        for each, value in zip(prices, values, strict=True)
    ]
    known = [(each, value) for each, value in zip(prices, values, strict=True) if value is not None]
    plot = _plot(known, per_amount(product, unit), formats) if len(known) == len(prices) else None
    return PriceHistory(rows[::-1], plot)


def per_amount(product: Product, unit: str) -> str:
    """What `price_by_amount` is the price of, in words."""
    return "100 pieces" if product.kind == "supply" else PER[unit]


def price_by_amount(product: Product, pack: Pack, unit: str) -> Fraction | None:
    """The price of 100 g, of an ounce, or of 100 pieces, exact; None where it is not known."""
    by_piece = price_per_piece(pack)
    if by_piece is not None:
        return by_piece * 100
    by_gram = price_per_gram(pack, density_of(product))
    return None if by_gram is None else by_gram * (100 if unit == "g" else GRAMS_PER[unit])


def _plot(known: list[tuple[Price, Fraction]], per: str, formats: LocaleFormat) -> Drawing:
    """Steps from zero up: a price holds until the next one."""
    first, last = known[0], known[-1]
    days = max((last[0].day - first[0].day).days, 1)
    most = max(value for _, value in known)

    def across(each: Price) -> float:
        return round(LEFT + (each.day - first[0].day).days / days * WIDTH, 1)

    def down(value: Fraction) -> float:
        return round(TOP + (1 - float(value / most)) * HEIGHT, 1)

    corners = [(across(first[0]), down(first[1]))]
    for each, value in known[1:]:
        corners += [(across(each), corners[-1][1]), (across(each), down(value))]
    words = (
        f"The price of {per}: {formats.price(first[1])} on {formats.day(first[0].day)}, "
        f"{formats.price(last[1])} on {formats.day(last[0].day)}."
    )
    return drawing_of(
        "prices",
        words,
        corners=" ".join(f"{x},{y}" for x, y in corners),
        dots=[(across(each), down(value)) for each, value in known],
        base=TOP + HEIGHT,
        left=LEFT,
        right=LEFT + WIDTH,
        first=formats.price(first[1]),
        last=formats.price(last[1]),
    )
