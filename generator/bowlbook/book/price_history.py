"""What the packs of a book cost before: every price in its products' files up to the last release."""

from collections.abc import Iterator, Mapping
from datetime import date
from fractions import Fraction
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.folder import EntryFile
from bowlbook.book.read_book import read_entry
from bowlbook.book.released import Release
from bowlbook.book.revision import NoRevision, versions_until
from bowlbook.cache.cache import Cache
from bowlbook.cache.digest import digest_of
from bowlbook.entries.product import Pack, Product
from bowlbook.reading.amount import Count, Mass, Volume

FOLDER = "products"


class Price(NamedTuple):
    """A price of a pack, in the house's currency, and the day that it is of."""

    day: date
    price: Fraction
    net: Mass | Volume | Count


Histories = Mapping[str, tuple[Price, ...]]
"""Every price of a product, oldest first, by its id."""


def price_history(recipes: Path, book: Book, release: Release | None, cache: Cache) -> Histories:
    """Every dated price of each product, oldest first, by its id of today; those with two or more.

    From the history of the release's commit, under all ids that the product had, and the book itself. A price
    in another currency than the house's is left out. Empty where there is no release to be had.
    """
    if release is None:
        return {}
    given = digest_of(release.commit, book.house.currency)
    try:
        before = cache.get_or_make(
            "prices", release.commit, given, lambda: list(_released(recipes, release, book.house.currency))
        )
    except NoRevision:
        return {}
    by_id: dict[str, set[Price]] = {}
    for entry_id, price in before:
        by_id.setdefault(entry_id, set()).add(price)
    found = {}
    for entry_id, product in book.products.items():
        prices = set().union(*(by_id.get(each, set()) for each in (entry_id, *product.formerly)))
        prices |= set(_of(product.pack, book.house.currency))
        if len(prices) > 1:
            found[entry_id] = tuple(sorted(prices, key=lambda each: (each.day, each.price, str(each.net))))
    return found


def _released(recipes: Path, release: Release, currency: str) -> Iterator[tuple[str, Price]]:
    for name, content in versions_until(recipes, release.commit, FOLDER):
        path = PurePosixPath(name)
        if str(path.parent) != FOLDER or path.suffix != ".yml":
            continue
        entry = read_entry(EntryFile("product", path.stem, name), content).entry
        if isinstance(entry, Product):
            yield from ((path.stem, price) for price in _of(vars(entry).get("pack"), currency))


def _of(pack: Pack | None, currency: str) -> Iterator[Price]:
    if pack is None:
        return
    said = vars(pack)  # of an entry with a mistake, what could be read
    if said.get("price") is None or said.get("priced_on") is None or said.get("net") is None:
        return
    if said.get("currency") in (None, currency):
        yield Price(said["priced_on"], said["price"], said["net"])
