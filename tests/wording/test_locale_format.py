"""Money against Babel, which formats by the data of CLDR."""

from decimal import Decimal
from types import SimpleNamespace
from typing import Any

import pytest
from babel.numbers import format_currency

from bowlbook.wording.locale_format import LocaleFormat

AMOUNTS = (0, 5, 99, 100, 999, 1234, 99999, 123456, 1234567, 12345678, 98765432109876)


@pytest.mark.parametrize(
    "locale", ["en-CA", "de-CH", "de-AT", "fr", "hi", "pt-PT", "es", "ar-EG", "en-US-POSIX"]
)
@pytest.mark.parametrize(("currency", "places"), [("CAD", 2), ("JPY", 0), ("KWD", 3)])
def test_money_is_written_as_babel_writes_it(locale: str, currency: str, places: int) -> None:
    house: Any = SimpleNamespace(locale=locale, currency=currency)
    for minor in AMOUNTS:
        amount = Decimal(minor).scaleb(-places)
        assert LocaleFormat(house).money(minor) == format_currency(
            amount, currency, locale=locale.replace("-", "_")
        )
