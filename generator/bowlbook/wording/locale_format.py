"""Money and dates in the house's currency and language."""

from copy import copy
from datetime import date
from fractions import Fraction
from functools import cache, lru_cache
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.house import House
from bowlbook.figures.cost import minor_units
from bowlbook.figures.rounding import half_up


class MoneyForm(NamedTuple):
    """How a locale writes money of one currency: the text around a number, and how its digits are set apart.

    ``first`` and ``rest``: digits in the last group before the decimals and in the others, 0 without groups;
    some locales group 12,34,567. ``places``: decimals.
    """

    before: str
    after: str
    decimal: str
    group: str
    first: int
    rest: int
    places: int

    def text(self, minor: int) -> str:
        """Whole minor units, from zero up, as money."""
        whole, part = divmod(minor, 10**self.places)
        digits, groups, size = str(whole), [], self.first
        while size and len(digits) > size:
            digits, last = digits[:-size], digits[-size:]
            groups.append(last)
            size = self.rest
        shown = self.group.join([digits, *reversed(groups)])
        decimals = f"{self.decimal}{part:0{self.places}}" if self.places else ""
        return f"{self.before}{shown}{decimals}{self.after}"


class LocaleFormat:
    """Money and dates in the house's currency and language."""

    def __init__(self, house: House, *, priced: bool = True) -> None:
        """``priced``: whether the book has prices, so that pages show costs."""
        self.priced = priced
        self._currency, self._locale = house.currency, house.locale

    def day(self, day: date) -> str:
        """A day in the house's language, long form."""
        return _day(day, self._locale)

    def money(self, minor: int | None) -> str | None:
        """Whole minor units, from zero up, as money; None stays None."""
        return None if minor is None else _money_form(self._currency, self._locale).text(minor)

    def money_form(self) -> dict[str, str | int]:
        """The house's money format as data for a script."""
        return _money_form(self._currency, self._locale)._asdict()

    def price(self, price: Fraction) -> str:
        """An authored price, to the minor unit, half up."""
        form = _money_form(self._currency, self._locale)
        return form.text(half_up(price * 10**form.places))


def locale_format_of(book: Book) -> LocaleFormat:
    """The format of a book's house; costs are shown where any product has a price."""
    return LocaleFormat(book.house, priced=book.priced)


@lru_cache(maxsize=4096)
def _day(day: date, locale: str) -> str:
    from babel import Locale  # slow to import, and many commands format nothing
    from babel.dates import format_date

    return str(format_date(day, "long", locale=Locale.parse(locale, sep="-")))


@cache
def _money_form(currency: str, name: str) -> MoneyForm:
    """Read off the locale's own pattern; decimals by ISO 4217 (CLDR differs for a few currencies)."""
    from decimal import Decimal

    from babel import Locale

    locale, places = Locale.parse(name, sep="-"), minor_units(currency)
    # Babel shares its pattern objects: changed in place, every later format would change.
    pattern = copy(locale.currency_formats["standard"])
    pattern.frac_prec = (places, places)
    one = Decimal("1" * (places + 1)).scaleb(-places)
    text = str(pattern.apply(one, locale, currency=currency, currency_digits=False))
    before, *_, after = text.split("1")
    symbols = locale.number_symbols["latn"]
    # Babel gives a huge group where a locale does not group at all.
    first, rest = (0 if size > 20 else size for size in pattern.grouping)
    return MoneyForm(before, after, symbols["decimal"], symbols["group"], first, rest, places)
