"""The house's currency or locale is not a known one.

Why: every price on every page is written by them.
Source: ISO 4217 currencies and CLDR locales, as Babel carries them.
Wrong: `currency: CDA`; `locale: xx-CA`.
Right: `currency: CAD`; `locale: en-CA`.
"""

from collections.abc import Iterator
from datetime import date
from functools import cache

from bowlbook.book.book import Book
from bowlbook.entries.house import House
from bowlbook.reading.finding import Finding

KINDS = ("house",)


def find(book: Book, house: House, today: date) -> Iterator[Finding]:
    """Findings at the house's currency and locale."""
    from babel import Locale, UnknownLocaleError

    if house.currency not in currencies():
        message = f'"{house.currency}" is not a currency of ISO 4217.'
        yield house.source.objection(("currency",), message, "Write its three letters, as CAD.")
    try:
        Locale.parse(house.locale, sep="-")
    except (UnknownLocaleError, ValueError):
        yield house.source.objection(
            ("locale",), f'"{house.locale}" is not a known locale.', "Write language and region, as en-CA."
        )


@cache
def currencies() -> frozenset[str]:
    """The letters of every currency."""
    from babel.core import get_global

    return frozenset(get_global("all_currencies"))
