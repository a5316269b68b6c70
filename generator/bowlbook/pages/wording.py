"""Facets, dates, money and other values as the house's readers read them."""

from copy import copy
from datetime import date
from fractions import Fraction
from functools import lru_cache
from typing import Any

from bowlbook.entries.facets import FACETS, Facets
from bowlbook.entries.house import House
from bowlbook.entries.product import Developer
from bowlbook.figures.cost import minor_units
from bowlbook.figures.rounding import half_up
from bowlbook.figures.use import Use
from bowlbook.reading.amount import Count, Mass, Span, Volume, counted, plain

FACET_NAMES = {
    "natural_level": "Natural level",
    "target_level": "Target level",
    "lift": "Levels of lift",
    "texture": "Texture",
    "density": "Density",
    "porosity": "Porosity",
    "curl": "Curl",
    "history": "History",
    "area": "Area",
    "placement": "Placement",
    "tone": "Tone wanted",
}


def facet_sentence(facets: Facets) -> str:
    """The facets in one line, as ``natural level 1–4, coarse, cool``."""
    said = []
    for name in FACETS:
        value = getattr(facets, name)
        if isinstance(value, Span):
            unit = {"natural_level": "natural level", "target_level": "target level"}.get(name)
            said.append(f"{unit} {value}" if unit else f"{counted(value, 'level')} of lift")
        elif value:
            noun = {"density": " density", "porosity": " porosity"}.get(name, "")
            said.append(either(value) + noun)
    return ", ".join(said)


def developer_name(developer: Developer) -> str:
    """A developer's name with its volume, where the name does not say it: ``Strong cream (40 volume)``."""
    volume = f"{plain(developer.volume)} volume"
    return developer.name if volume in developer.name else f"{developer.name} ({volume})"


def either(words: tuple[str, ...]) -> str:
    """``a``, ``a or b``, ``a, b or c``."""
    return " or ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""


def both(words: list[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1]))) if words else ""


class Wording:
    """Money and dates in the house's currency and language."""

    def __init__(self, house: House, *, priced: bool = True) -> None:
        """``priced``: whether pages say anything of costs."""
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

    def money_form(self) -> dict[str, Any]:
        """How money is written, for a script that writes it: what stands before and after, marks, groups."""
        symbols = self._locale.number_symbols["latn"]
        digits = "1" * (self._places + 1)
        text = _money(int(digits), self._places, self._currency, self._locale)
        shown = [place for place, sign in enumerate(text) if sign == "1"]
        first, rest = self._locale.currency_formats["standard"].grouping
        return {
            "before": text[: shown[0]],
            "after": text[shown[-1] + 1 :],
            "decimal": symbols["decimal"],
            "group": symbols["group"],
            "first": 0 if first > 20 else first,
            "rest": 0 if rest > 20 else rest,
            "places": self._places,
        }

    def price(self, price: Fraction) -> str:
        """An authored price, to the minor unit, half up."""
        return _money(half_up(price * 10**self._places), self._places, self._currency, self._locale)


@lru_cache(maxsize=4096)
def _day(day: date, locale: Any) -> str:
    from babel.dates import format_date

    return str(format_date(day, "long", locale=locale))


@lru_cache(maxsize=65536)
def _money(minor: int, places: int, currency: str, locale: Any) -> str:
    """By the locale's own pattern, with the decimals of ISO 4217 (CLDR differs for a few currencies)."""
    from decimal import Decimal

    pattern = copy(locale.currency_formats["standard"])
    pattern.frac_prec = (places, places)
    amount = Decimal(minor).scaleb(-places)
    return str(pattern.apply(amount, locale, currency=currency, currency_digits=False))


def shown_amount(value: Mass | Volume | Count) -> str:
    """An authored amount, its fluid ounces always named as US or imperial."""
    text = str(value)
    return f"{text} (US)" if text.endswith(" fl oz") and "imperial" not in text else text


def length_word(length: str) -> str:
    """A length of hair as people write it: ``extra-long``."""
    return length.replace("_", "-")


def volumes(strength: Fraction) -> str:
    """A developer's strength, as ``20 volume``."""
    return f"{plain(strength)} volume"


def plain_number(value: Fraction) -> int | float:
    """A number as JSON has it: whole where it is."""
    return int(value) if value.denominator == 1 else float(value)


def with_volume(developer: Developer) -> str:
    """A developer's name with its strength, which is added where the name does not say it."""
    strength = volumes(developer.volume)
    return developer.name if strength in developer.name.casefold() else f"{developer.name}, {strength}"


def mixed_with(use: Use) -> str:
    """What an answer is mixed with and where it goes: ``With Developer, 20 volume; foil.``"""
    return f"With {' or '.join(map(with_volume, use.developers))}; {either(use.placements)}."
