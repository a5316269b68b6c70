"""unknown-currency: the house's currency (ISO 4217) and locale (CLDR)."""

import pytest
from babel import Locale

from bowlbook.checks.unknown_currency import currencies
from checks.small_book import HOUSE_FILE, SmallBook


@pytest.mark.parametrize("currency", ["CDA", "ABC", "QQQ"])
def test_no_such_currency(book: SmallBook, currency: str) -> None:
    book.edit(HOUSE_FILE, "currency: CAD", f"currency: «unknown-currency»{currency}")
    book.shows(findings=1)


@pytest.mark.parametrize("locale", ["xx-CA", "zzz"])
def test_no_such_locale(book: SmallBook, locale: str) -> None:
    book.edit(HOUSE_FILE, "locale: en-CA", f"locale: «unknown-currency»{locale}")
    book.shows(findings=1)


def test_both_at_once(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "currency: CAD", "currency: «unknown-currency»CDA")
    book.edit(HOUSE_FILE, "locale: en-CA", "locale: «unknown-currency»xx")
    book.shows(findings=2)


@pytest.mark.parametrize(
    ("currency", "locale"),
    [("CAD", "fr-CA"), ("JPY", "ja"), ("KWD", "ar-KW"), ("EUR", "de-DE"), ("CNY", "zh-Hans-CN")],
)
def test_known_ones_pass(book: SmallBook, currency: str, locale: str) -> None:
    book.edit(HOUSE_FILE, "currency: CAD", f"currency: {currency}")
    book.edit(HOUSE_FILE, "locale: en-CA", f"locale: {locale}")
    book.shows(findings=0)


def test_the_currencies_are_those_that_have_a_name() -> None:
    """Source: the names of currencies in CLDR's English, as Babel carries them.

    Newer data has the Arab accounting dinar (XAD) too, and no name for it yet.
    """
    assert currencies() - {"XAD"} == set(Locale.parse("en").currencies)
    assert {"CAD", "EUR", "JPY"} <= currencies() and "CDA" not in currencies()
