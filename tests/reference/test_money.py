"""Minor units against ISO 4217 as Babel carries it, and bowls that add up in currencies of 0, 2 and 3."""

from fractions import Fraction

import pytest
from babel.numbers import get_currency_precision

from bowlbook.figures.cost import bill, minor_units

# CLDR, which Babel carries, rounds these to whole units by custom; ISO 4217 lists them with decimals. The
# custom changes: Babel 2.18 has the Serbian dinar too, 2.19 in its place Colombia's peso, forint and rupiah.
CLDR_DIFFERS = {"AFN", "ALL", "IQD", "IRR", "KPW", "LAK", "LBP", "MGA", "MMK", "SOS", "SYP", "YER"}
CUSTOM_CHANGED = {"COP", "HUF", "IDR", "RSD"}


@pytest.mark.parametrize(("currency", "places"), [("JPY", 0), ("CAD", 2), ("EUR", 2), ("KWD", 3)])
def test_minor_units(currency: str, places: int) -> None:
    """Source: ISO 4217, list of active codes."""
    assert minor_units(currency) == places


def test_against_babel() -> None:
    """Source: CLDR by Babel, but for the currencies in which CLDR follows custom."""
    differ = {code for code in _active() if get_currency_precision(code) != minor_units(code)}
    assert CLDR_DIFFERS <= differ <= CLDR_DIFFERS | CUSTOM_CHANGED
    assert {get_currency_precision(code) for code in differ} == {0}
    assert len(_active()) > 140


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
