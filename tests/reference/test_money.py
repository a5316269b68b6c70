"""Minor units against ISO 4217 as Babel carries it, and bowls that add up in currencies of 0, 2 and 3."""

from fractions import Fraction

import pytest
from babel.numbers import get_currency_precision, list_currencies

from generator.figures.cost import MINOR_UNITS, bill, minor_units

# CLDR, which Babel carries, rounds these by custom; ISO 4217 gives them the decimals that are used here, or
# has withdrawn them or never listed them.
CLDR_DIFFERS = set(
    ["AFN", "ALL", "AMD", "COP", "CRC", "GYD", "HUF", "IDR", "IQD", "IRR", "LAK", "LBP", "MGA", "MMK", "MNT", "MRO", "MUR", "NOK", "PKR", "RSD", "SLE", "SLL", "SOS", "SYP", "TMM", "TWD", "TZS", "UZS", "YER", "ZMK", "ZWD", "ZAR", "STD", "KPW", "CZK", "SEK"]
)


@pytest.mark.parametrize(("currency", "places"), [("JPY", 0), ("CAD", 2), ("EUR", 2), ("KWD", 3)])
def test_minor_units(currency: str, places: int) -> None:
    """Source: ISO 4217, list of active codes."""
    assert minor_units(currency) == places


def test_against_babel() -> None:
    """Source: CLDR by Babel, but for the currencies in which CLDR follows custom."""
    wrong = [
        code
        for code in list_currencies()
        if code not in CLDR_DIFFERS
        and (code in MINOR_UNITS or get_currency_precision(code) != 2)
        and get_currency_precision(code) != minor_units(code)
        and code in _active()
    ]
    assert wrong == []


def _active() -> set[str]:
    """Currencies that are legal tender today in some territory, by CLDR."""
    from babel.core import get_global
    from babel.numbers import get_territory_currencies

    territories = get_global("territory_currencies")
    return {code for territory in territories for code in get_territory_currencies(territory)}


@pytest.mark.parametrize("places", [0, 2, 3])
def test_lines_add_up(places: int) -> None:
    costs = [Fraction(1, 3), Fraction(1, 3), Fraction(1, 3), Fraction("0.0004")]
    found = bill(costs, places)
    assert sum(found.lines) == found.total == {0: 1, 2: 100, 3: 1000}[places]
