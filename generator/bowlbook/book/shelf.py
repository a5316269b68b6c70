"""The shared shelf: a folder of products that several books take over, and what a book may change of it.

A book's own product stands in the place of a shared one of the same id only where it says so.
"""

from collections.abc import Callable, Mapping
from typing import Any, cast

from bowlbook.book.shelf_folder import KEY
from bowlbook.entries.entry import Entry
from bowlbook.entries.house import House
from bowlbook.entries.partial import Unread
from bowlbook.entries.product import Product, packs_of
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.refusal import Refusal


def _at(entry: Entry, key: str, refusal: Refusal) -> Finding:
    return entry.source.finding((key,), refusal.code, refusal.message, refusal.mend)


def no_shelf(house: House | None, refusal: Refusal | None) -> list[Finding]:
    """What is said of a shelf that cannot be had, at the key that names it; nothing where it can."""
    return [] if house is None or refusal is None else [_at(house, KEY, refusal)]


def shelf_findings(
    house: House | None, own: Mapping[str, Entry], shared: Mapping[str, Entry], ids: set[str]
) -> list[Finding]:
    """What does not fit between a book and its shelf: ids, and whose money a price is in.

    ``ids``: those of every shared file, also of one that could not be read.
    """
    findings: list[Finding] = []
    for product in cast(Mapping[str, Product], own).values():
        findings += _as_far_as_read(_in_place, product, product.id in ids, ids)
        findings += _as_far_as_read(_other_money, house, product)
    for product in cast(Mapping[str, Product], shared).values():
        findings += _as_far_as_read(_in_place, product, False, ())
        findings += _as_far_as_read(_no_currency, product)
        if product.id not in own:
            findings += _as_far_as_read(_other_money, house, product)
    return findings


def _as_far_as_read(find: Callable[..., list[Finding]], *given: Any) -> list[Finding]:
    """What is found, or nothing where a value that it depends on could not be read."""
    try:
        return find(*given)
    except Unread:
        return []


def _no_currency(product: Product) -> list[Finding]:
    message = "A shared price is read in several books, and says no currency."
    mend = "Add currency: and its three letters, as CAD."
    return [
        product.source.finding(loc, "missing-key", message, mend)
        for loc, pack in packs_of(product)
        if pack.price is not None and pack.currency is None
    ]


def _in_place(product: Product, is_shared: bool, ids: set[str] | tuple[()]) -> list[Finding]:
    if is_shared and not product.instead_of_shared:
        message = f'The shared products have a "{product.id}" too.'
        mend = "Rename this file, or add instead_of_shared: yes if it counts here in the place of that one."
        return [_at(product, "name", Refusal("duplicate-id", message, mend))]
    if product.instead_of_shared and not is_shared:
        message = f'There is no shared product "{product.id}" that this could stand in the place of.'
        mend = did_you_mean(product.id, ids) or "Delete the key."
        return [_at(product, "instead_of_shared", Refusal("unknown-id", message, mend))]
    return []


def _other_money(house: House | None, product: Product) -> list[Finding]:
    if house is None:
        return []
    mend = f"Give the house a product of its own in its place, with the price in {house.currency}."
    message = f"The house reckons in {house.currency}, and this price is in "
    return [
        product.source.finding((*loc, "currency"), "mixed-currency", f"{message}{pack.currency}.", mend)
        for loc, pack in packs_of(product)
        if pack.currency not in (None, house.currency)
    ]
