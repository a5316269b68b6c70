"""Numbers as people write them.

Source: Babel (Unicode CLDR) writes each number as ten locales do, and reads it back.
"""

from fractions import Fraction

import pytest
from babel.numbers import format_decimal, parse_decimal

from bowlbook.importing.number import Unclear, decimal_text, number_in

LOCALES = ("en_CA", "fr_CA", "fr_FR", "de_DE", "de_CH", "es_ES", "pt_PT", "pt_BR", "it_IT", "nl_NL")
NUMBERS = ("0.5", "1.5", "31.9", "31.90", "0.125", "450", "1250.5", "1250.25", "12345678.5", "1234567.25")


@pytest.mark.parametrize("locale", LOCALES)
@pytest.mark.parametrize("number", NUMBERS)
def test_numbers_of_every_language(locale: str, number: str) -> None:
    """What certainly means one number is read as the locale writes it; never as another number."""
    written = format_decimal(number, format="#,##0.######", locale=locale)
    assert Fraction(parse_decimal(written, locale, strict=True)) == Fraction(number)
    assert number_in(" ".join(written.split())) == Fraction(number)


@pytest.mark.parametrize("text", ["1,250", "1.250", "12,500", "999.999"])
def test_thousands_or_decimals_is_asked_unless_it_was_said(text: str) -> None:
    with pytest.raises(Unclear, match="thousands or decimals"):
        number_in(text)
    sign = "," if "," in text else "."
    as_decimal = Fraction(text.replace(",", "."))
    assert number_in(text, sign) == as_decimal
    assert number_in(text, "." if sign == "," else ",") == as_decimal * 1000


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("½", "1/2"),
        ("1½", "3/2"),
        ("1 ½", "3/2"),
        ("3/4", "3/4"),
        ("1 1/2", "3/2"),
        ("2 3/8", "19/8"),
        ("1'250.50", "2501/2"),
        ("1.250.000", "1250000"),
        ("0,333", "333/1000"),
    ],
)
def test_fractions_and_groups(text: str, number: str) -> None:
    assert number_in(text) == Fraction(number)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "one",
        "1,2,3",
        "1.2.3",
        "1,,5",
        "-1",
        "+2",
        "1e3",
        "1 5",
        "12 50",
        "1.5.",
        "1/0",
        "1 3/2",
        "~5",
        "5?",
        "1_000",
    ],
)
def test_anything_else_is_asked(text: str) -> None:
    with pytest.raises(Unclear):
        number_in(text)


def test_a_third_is_no_decimal() -> None:
    assert decimal_text(Fraction(5, 8)) == "0.625" and decimal_text(Fraction(40)) == "40"
    with pytest.raises(Unclear):
        decimal_text(Fraction(1, 3))
