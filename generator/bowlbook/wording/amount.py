"""Amounts, measures, lengths of hair and numbers as they are shown."""

from fractions import Fraction

from bowlbook.entries.measure import Measures
from bowlbook.entries.product import Product
from bowlbook.figures.measure import measured
from bowlbook.reading.amount import Count, Mass, Volume, counted


def shown_amount(value: Mass | Volume | Count) -> str:
    """An authored amount, its fluid ounces always named as US or imperial."""
    text = str(value)
    # An ounce of volume differs by 4 % between the two systems.
    return f"{text} (US)" if text.endswith(" fl oz") and "imperial" not in text else text


def length_word(length: str) -> str:
    """A length of hair as people write it: ``extra-long``."""
    return length.replace("_", "-")


def plain_number(value: Fraction) -> int | float:
    """A number as JSON has it: whole where it is."""
    return int(value) if value.denominator == 1 else float(value)


def measure_words(measures: Measures, product: Product, weight: Fraction) -> str | None:
    """A weight in grams, as ``about 1.75 scoops``; None where the house has no measure for the product."""
    found = measured(measures, product, weight)
    return None if found is None else f"about {counted(found[0], *found[1].forms)}"
