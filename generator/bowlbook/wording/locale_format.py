"""Money and dates in the house's currency and language."""

from copy import copy
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from bowlbook.book.book import Book
from bowlbook.entries.house import House
from bowlbook.figures.cost import minor_units
from bowlbook.figures.rounding import half_up

if TYPE_CHECKING:  # Babel is slow to import, and many commands format nothing
    from babel import Locale


class LocaleFormat:
    """Money and dates in the house's currency and language."""

    def __init__(self, house: House, *, priced: bool = True) -> None:
        """``priced``: whether the book has prices, so that pages show costs."""
        from babel import Locale

        self._locale = Locale.parse(house.locale, sep="-")
        self.priced = priced
        self._currency = house.currency
        self._places = minor_units(house.currency)

    def day(self, day: date) -> str:
        """A day in the house's language, long form."""
        return _day(day, self._locale)

    def money(self, minor: int | None) -> str | None:
        """Whole minor units as money; None stays None."""
        return None if minor is None else _money(minor, self._places, self._currency, self._locale)

    def money_form(self) -> dict[str, str | int]:
        """The house's money format as data for a script: text before and after, separators, group sizes."""
        symbols = self._locale.number_symbols["latn"]
        digits = "1" * (self._places + 1)
        text = _money(int(digits), self._places, self._currency, self._locale)
        shown = [place for place, sign in enumerate(text) if sign == "1"]
        # Some locales group the first digits otherwise than the rest, as 12,34,567.
        first, rest = self._locale.currency_formats["standard"].grouping
        return {
            "before": text[: shown[0]],
            "after": text[shown[-1] + 1 :],
            "decimal": symbols["decimal"],
            "group": symbols["group"],
            # Babel gives a huge group where a locale does not group at all.
            "first": 0 if first > 20 else first,
            "rest": 0 if rest > 20 else rest,
            "places": self._places,
        }

    def price(self, price: Fraction) -> str:
        """An authored price, to the minor unit, half up."""
        return _money(half_up(price * 10**self._places), self._places, self._currency, self._locale)


def locale_format_of(book: Book) -> LocaleFormat:
    """The format of a book's house; costs are shown where any product has a price."""
    return LocaleFormat(book.house, priced=book.priced)


@lru_cache(maxsize=4096)
def _day(day: date, locale: "Locale") -> str:
    from babel.dates import format_date

    return str(format_date(day, "long", locale=locale))


@lru_cache(maxsize=65536)
def _money(minor: int, places: int, currency: str, locale: "Locale") -> str:
    """By the locale's own pattern, with the decimals of ISO 4217 (CLDR differs for a few currencies)."""
    from decimal import Decimal

    # Babel shares its pattern objects: changed in place, every later format would change.
    pattern = copy(locale.currency_formats["standard"])
    pattern.frac_prec = (places, places)
    amount = Decimal(minor).scaleb(-places)
    return str(pattern.apply(amount, locale, currency=currency, currency_digits=False))
