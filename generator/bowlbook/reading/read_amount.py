"""What an amount may be: each kind of amount read into an exact value, with its units and its bounds."""

import re
from datetime import date
from fractions import Fraction

from bowlbook.reading.amount import Count, Mass, Ratio, Span, Volume
from bowlbook.reading.quantity import DASH, DASHES, NUMBER, bounded, read_number, read_quantity
from bowlbook.reading.refusal import Refusal

MASS_UNITS = {"oz": "oz", "g": "g", "kg": "kg", "lb": "lb", "gram": "g", "grams": "g", "ounces": "oz"}
VOLUME_UNITS = {
    "ml": "mL",
    "mL": "mL",
    "l": "L",
    "L": "L",
    "fl oz": "fl oz",
    "US fl oz": "fl oz",
    "imperial fl oz": "imperial fl oz",
}
TRADE_UNITS = {
    f"{where} {name}{plural}": f"{where} {name}"
    for where in ("US", "imperial")
    for name in ("pint", "quart", "gallon")
    for plural in ("", "s")
}
"""Larger volumes that the trade sells in. Which pint is meant is said: the imperial one is a fifth larger."""
VOLUME_UNITS |= TRADE_UNITS
WHICH = re.compile(r"(?i)(pint|quart|gallon|pt|qt|gal)s?\.?")
COUNT_UNITS = {"pieces": "pieces", "piece": "pieces", "pcs": "pieces"}
DURATION_UNITS = {"min": 1, "minute": 1, "minutes": 1, "hour": 60, "hours": 60, "h": 60}
DAY_UNITS = {"day": 1, "days": 1, "week": 7, "weeks": 7}
STRENGTH_UNITS = {"volume": "volume", "vol": "volume"}

SMALLEST = Fraction(1, 1000)


def read_mass(text: str) -> Mass:
    """A weight such as ``0.5 oz`` or ``450 g``, above zero and at most 100 kg or its like."""
    number, unit = read_quantity(text, MASS_UNITS, wanted="a weight", example="450 g or 0.5 oz")
    unit = MASS_UNITS[unit]
    most = {"oz": 3600, "g": 100_000, "kg": 100, "lb": 220}[unit]
    return Mass(bounded(number, SMALLEST, most, unit), unit)


def read_net(text: str) -> Mass | Volume | Count:
    """The net content of a pack: a weight, a volume or a number of pieces."""
    units = {**MASS_UNITS, **VOLUME_UNITS, **COUNT_UNITS}
    example = "450 g, 1 L or 500 pieces"
    which = WHICH.fullmatch(text.strip().lstrip("0123456789.").strip())
    if which is not None:
        name = {"pt": "pint", "qt": "quart", "gal": "gallon"}.get(which[1].lower(), which[1].lower())
        message = f"This is not certain: an imperial {name} is a fifth larger than a US one."
        mend = f"Write US {name} or imperial {name}, as the pack says; or its litres or fluid ounces."
        raise Refusal("wrong-unit", message, mend)
    number, unit = read_quantity(text, units, wanted="a pack's net content", example=example)
    if unit in COUNT_UNITS:
        if number.denominator != 1:
            raise Refusal("bad-amount", "Pieces are counted in whole numbers.", "Write it as 500 pieces.")
        return Count(int(bounded(number, 1, 1_000_000, "pieces")))
    if unit in MASS_UNITS:
        return read_mass(text)
    unit = VOLUME_UNITS[unit]
    most = {"mL": 100_000, "L": 100, **dict.fromkeys(TRADE_UNITS.values(), 200)}.get(unit, 3600)
    return Volume(bounded(number, SMALLEST, most, unit), unit)


def read_ratio(text: str) -> Ratio:
    """``1:2`` or ``1:1.5``, by weight; each side from 0.01 to 100."""
    example = "1:2 or 1:1.5"
    sides = text.strip().split(":")
    if len(sides) != 2:
        message = "This is not a ratio: two numbers with a colon between them are wanted."
        raise Refusal("bad-amount", message, f"Write it as {example}.")
    try:
        left, right = (read_number(side, wanted="a ratio", example=example) for side in sides)
    except Refusal as refusal:
        decimals = [re.sub(r"^([0-9]+),([0-9]{1,2})$", r"\1.\2", side.strip()) for side in sides]
        if all(NUMBER.fullmatch(side) for side in decimals):
            refusal.mend = f"Write {':'.join(decimals)}, with a point."
        raise
    low = Fraction(1, 100)
    return Ratio(bounded(left, low, 100, ""), bounded(right, low, 100, ""))


def read_percent(text: str) -> Fraction:
    """``6 %`` as the number 6, from 0.1 to 100."""
    number, _ = read_quantity(text, {"%": 1}, wanted="a percentage", example="6 %")
    return bounded(number, Fraction(1, 10), 100, "%")


def read_volume_strength(text: str) -> Fraction:
    """``20 volume`` as the number 20, from 1 to 60."""
    number, _ = read_quantity(text, STRENGTH_UNITS, wanted="a developer strength", example="20 volume")
    return bounded(number, 1, 60, "volume")


def read_bare_volume(text: str) -> Fraction:
    """A developer's own ``volume: 20``, with or without the word."""
    if re.search("[A-Za-z%]", text):
        return read_volume_strength(text)
    number = read_number(text, wanted="a developer strength in volumes", example="20")
    return bounded(number, 1, 60, "volume")


def read_density(text: str) -> Fraction:
    """``1.02 g/mL`` as the number 1.02, from 0.5 to 2."""
    number, _ = read_quantity(text, {"g/mL": 1, "g/ml": 1}, wanted="a density", example="1.02 g/mL")
    return bounded(number, Fraction(1, 2), 2, "g/mL")


def read_minutes(text: str) -> Fraction:
    """``35 minutes`` or ``1.5 hours`` in minutes, above zero and at most 24 hours."""
    number, unit = read_quantity(text, DURATION_UNITS, wanted="a length of time", example="35 minutes")
    return bounded(number * DURATION_UNITS[unit], Fraction(1, 60), 24 * 60, "minutes")


def read_days(text: str) -> int:
    """``180 days`` or ``26 weeks`` in days, from 1 to 3660."""
    number, unit = read_quantity(text, DAY_UNITS, wanted="a number of days", example="180 days")
    days = number * DAY_UNITS[unit]
    if days.denominator != 1:
        raise Refusal("bad-amount", "Days are counted in whole numbers.", "Write it as 180 days.")
    return int(bounded(days, 1, 3660, "days"))


def read_money(text: str) -> Fraction:
    """A price such as ``39.00`` in the house's currency, above zero and under a million."""
    numeric = r"(?i)[-+.]*(nan|inf)|[0-9.]+e[-+]?[0-9]"
    if re.search(r"[A-Za-z$£€¥]", text) and not re.match(numeric, text.strip()):
        message = "This is not a price: it carries a unit or a currency sign."
        mend = "Write the number only, as 39.00; the currency stands in the house's entry."
        raise Refusal("wrong-unit", message, mend)
    number = read_number(text, wanted="a price", example="39.00")
    return bounded(number, Fraction(1, 1000), 999_999, "")


def read_parts(text: str) -> Fraction:
    """Parts of a lightener in a blend, above zero and at most 100."""
    number = read_number(text, wanted="a number of parts", example="2")
    return bounded(number, Fraction(1, 100), 100, "parts")


def read_whole(text: str, low: int, high: int, of: str) -> int:
    """A whole number such as sections or learners."""
    number = read_number(text, wanted=f"a number of {of}", example="12")
    if number.denominator != 1:
        raise Refusal("bad-amount", f"This is not a whole number of {of}.", "Write it as 12.")
    return int(bounded(number, low, high, of))


def read_span(text: str, low: int, high: int, of: str) -> Span:
    """``6-10`` or ``7``: whole numbers from low to high, lower first."""
    example = f"{low}-{high} or {low}"
    ends = re.split(r"\s*[-–]\s*", text.strip())
    if len(ends) > 2 or not all(re.fullmatch(r"0|[1-9][0-9]{0,2}", end) for end in ends):
        dash = re.fullmatch(rf"([0-9]{{1,3}})\s*({DASH})\s*([0-9]{{1,3}})", text.strip())
        if dash is None:
            raise Refusal("bad-amount", f"This is not {of}.", f"Write it as {example}.")
        low_end, sign, high_end = dash.groups()
        why = f"“{sign}” is {DASHES[sign]}, and not the plain hyphen"
        raise Refusal("bad-amount", f"This is not {of}: {why}.", f"Write {low_end}-{high_end}.")
    numbers = [int(end) for end in ends]
    first, last = numbers[0], numbers[-1]
    if first > last:
        raise Refusal("bad-amount", f"The lower number comes first in {of}.", f"Write {last}-{first}.")
    if first < low or last > high:
        raise Refusal(
            "out-of-bounds", f"{of.capitalize()} runs from {low} to {high}.", f"Write it as {example}."
        )
    return Span(first, last)


def read_date(text: str) -> date:
    """``2026-10-02``, a real day of the Gregorian calendar from 2000 to 2199 (ISO 8601)."""
    mend = "Write year-month-day, as 2026-10-02."
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text.strip()):
        raise Refusal("bad-amount", "This is not a date.", mend)
    try:
        day = date.fromisoformat(text.strip())
    except ValueError as error:
        raise Refusal("bad-amount", "There is no such day.", mend) from error
    if not 2000 <= day.year < 2200:  # later ones are slips, and too far to add a review's days to
        message = f"The year {day.year} cannot be right here."
        raise Refusal("out-of-bounds", message, mend, unquoted=("This year cannot be right here.", mend))
    return day
