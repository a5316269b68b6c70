"""unknown-currency: the house's currency (ISO 4217) and locale (CLDR)."""

import pytest
from babel import Locale

from bowlbook.checks.unknown_currency import currencies
from checks.small_book import HOUSE_FILE, SmallBook


@pytest.mark.parametrize(
    ("currency", "locale", "findings"),
    [
        ("«unknown-currency»ABC", "en-CA", 1),
        ("«unknown-currency»QQQ", "en-CA", 1),
        ("CAD", "«unknown-currency»xx-CA", 1),
        ("CAD", "«unknown-currency»zzz", 1),
        ("«unknown-currency»CDA", "«unknown-currency»xx", 2),
        ("CAD", "fr-CA", 0),
        ("JPY", "ja", 0),
        ("KWD", "ar-KW", 0),
        ("EUR", "de-DE", 0),
        ("CNY", "zh-Hans-CN", 0),
    ],
)
def test_a_currency_and_a_locale(book: SmallBook, currency: str, locale: str, findings: int) -> None:
    book.edit(HOUSE_FILE, "currency: CAD", f"currency: {currency}")
    book.shows((HOUSE_FILE, "locale: en-CA", f"locale: {locale}"), findings=findings)


def test_the_currencies_are_those_that_have_a_name() -> None:
    """Source: the names of currencies in CLDR's English, as Babel carries them.

    Newer data has the Arab accounting dinar (XAD) too, and no name for it yet.
    """
    assert currencies() - {"XAD"} == set(Locale.parse("en").currencies)
    assert {"CAD", "EUR", "JPY"} <= currencies() and "CDA" not in currencies()
