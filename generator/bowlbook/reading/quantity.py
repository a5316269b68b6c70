"""A number and its unit as people write them, by one small grammar; and why a text is none.

A number is digits with an optional decimal point: no sign, comma, exponent, underscore, leading zero or
fraction sign. Nothing is guessed: what is not certain is refused with the mend.
"""

import re
from collections.abc import Mapping
from fractions import Fraction

from bowlbook.reading.amount import plain
from bowlbook.reading.refusal import Refusal

NUMBER = re.compile(r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,6})?")
QUANTITY = re.compile(r"(?P<number>\S*?[0-9½¼¾⅓⅔⅛⅜⅝⅞∞][^\sA-Za-z%]*|[-+.]?[A-Za-z]+)\s*(?P<unit>.*)")
LONGEST_AMOUNT = 60
HALVES = {"½": "0.5", "¼": "0.25", "¾": "0.75", "⅓": "0.333", "⅔": "0.667", "⅛": "0.125"}
WORDS = {"half": "0.5", "a half": "0.5", "a quarter": "0.25", "quarter": "0.25", "a third": "0.333"}
WORDS |= {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "ten": "10"}
"""Numbers that people write in words, and how each is written in digits."""
DASHES = {
    "-": "a hyphen",
    "\N{HYPHEN}": "a hyphen",
    "\N{NON-BREAKING HYPHEN}": "a hyphen",
    "\N{FIGURE DASH}": "a dash",
    "\N{EN DASH}": "a dash",
    "\N{EM DASH}": "a dash",
    "\N{MINUS SIGN}": "a minus sign",
}
"""The characters that people write between two ends of a range, and what each is called."""
DASH = "[" + "".join(map(re.escape, DASHES)) + "]"
FAULTS: tuple[tuple[str, str, str], ...] = (
    (
        r"[0-9 ]*[0-9]\s*/\s*[0-9]",
        "a fraction is not read",
        "Write it with a point: 1/2 is 0.5, 1/4 is 0.25.",
    ),
    (r"[0-9]+_[0-9]", "an underscore has no place in a number", ""),
    (r"0[0-9]", "a number does not begin with a zero before another digit", ""),
    (r"[0-9.]+[eE][-+]?[0-9]", "an exponent has no place here", ""),
    (r"\.[0-9]", "a number does not begin with its point", "Write 0{}."),
    (r"(?i)[-+.]*(nan|inf)", "it must be an ordinary number", ""),
    (r"[0-9]{10,}", "the number is far too large", ""),
    (r"[0-9]+\.[0-9]{7,}", "there are more than six decimals", ""),
    (r"(?![0-9])", "no number stands at its front", ""),
)
"""Beginnings of what is no number, the first that fits counts: why, and the mend, ``{}`` for the number."""


def read_number(text: str, *, wanted: str, example: str) -> Fraction:
    """A number without a unit. ``wanted`` names it in the message; ``example`` shows one in the mend."""
    text = text.strip()[: LONGEST_AMOUNT + 1]
    if NUMBER.fullmatch(text):
        return Fraction(text)
    raise bad_number(text, wanted, example)


def read_quantity(
    text: str, units: Mapping[str, object], *, wanted: str, example: str
) -> tuple[Fraction, str]:
    """A number and one of ``units`` (matched exactly, then without regard to case). Raises `Refusal`."""
    text = text.strip()
    found = QUANTITY.fullmatch(text) if len(text) <= LONGEST_AMOUNT else None
    if found is None:
        raise bad_number(text, wanted, example)
    digits, unit = found["number"], " ".join(found["unit"].split())
    if not NUMBER.fullmatch(digits):
        raise bad_number(digits + (f" {unit}" if unit else ""), wanted, example)
    if unit in units:
        return Fraction(digits), unit
    lowered = {name.lower(): name for name in units}
    if unit.lower() in lowered:
        return Fraction(digits), lowered[unit.lower()]
    shown = {str(to) if isinstance(to, str) else name for name, to in units.items()}
    names = ", ".join(sorted(shown, key=lambda name: (len(name), name)))
    if not unit:
        message = f"This is not {wanted}: the unit is missing."
        raise Refusal("bad-amount", message, f"Write the unit after the number, as {example}.")
    if re.match(rf"{DASH}\s*[0-9]", unit):
        raise bad_number(f"{digits} {unit}", wanted, example)
    if NUMBER.match(unit) or unit[0] in "/,." or re.match(r"[eE][-+]?[0-9]", unit):
        raise bad_number(f"{digits}{unit}", wanted, example)
    message = f'This is not {wanted}: the unit "{unit[:24]}" does not fit here.'
    raise Refusal("wrong-unit", message, f"Write it as {example} (units: {names}).")


def bad_number(text: str, wanted: str, example: str) -> Refusal:
    """Why a number was refused, and how to write it, for the ways in which people write them."""
    text = text.strip()[:LONGEST_AMOUNT]
    why, mend, unquoted = _range_or_word(text) or _sign_or_comma(text) or _faulty(text)
    usual = f"Write it as {example}."
    without = f"This is not {wanted}: {unquoted or why}.", usual
    return Refusal("bad-amount", f"This is not {wanted}: {why}.", mend or usual, unquoted=without)


Fault = tuple[str, str, str]
"""Why a text is no number; the mend, empty for the usual one; and why without quoting, empty for the same."""


def _range_or_word(text: str) -> Fault | None:
    """Two numbers with a dash between them, or a number in words."""
    if re.match(r"[-−–+]\s*[0-9.]", text):
        return "a sign has no place here", "", ""
    ends = re.match(rf"([0-9.]+)\s*({DASH})\s*([0-9.]+)(.*)", text)
    if ends is not None:
        first, sign, last, unit = ends.groups()
        why = f"“{sign}” is {DASHES[sign]} between two numbers, and one number is wanted"
        return why, f"Write one of the two, as {first}{unit} or {last}{unit}.", ""
    if text.lower() in WORDS:
        return "a number is written in digits", f"Write {text.lower()} as {WORDS[text.lower()]}.", ""
    return None


def _sign_or_comma(text: str) -> Fault | None:
    """A fraction sign, or a comma, which means tenths to some and thousands to others."""
    sign = next((sign for sign in HALVES if sign in text), None)
    if sign is not None:
        unquoted = "a fraction sign is not read"
        return f"a fraction sign ({sign}) is not read", f"Write {sign} as {HALVES[sign]}.", unquoted
    if not re.fullmatch(r"[0-9]+,[0-9]{1,6}(?![0-9]).*", text):
        return None
    whole, part = re.findall("[0-9]+", text)[:2]
    mend = f"Write {whole}.{part}, with a point."
    if len(part) == 3:
        mend = f"Write {whole}{part} for thousands, or {whole}.{part} with a point."
    return "a comma could mean tenths or thousands", mend, ""


def _faulty(text: str) -> Fault:
    """A number that begins as no number does, or has something in it that no number has."""
    for form, why, mend in FAULTS:
        if re.match(form, text):
            return why, mend.format(text[:12]), ""
    odd = re.search(r"[^0-9.\sA-Za-z%]", text)
    unquoted = "it is not a plain number"
    return f"“{odd[0]}” has no place in a number" if odd else unquoted, "", unquoted


def bounded(number: Fraction, low: Fraction | int, high: Fraction | int, unit: str) -> Fraction:
    """The number itself, where it is from ``low`` to ``high``; `Refusal` otherwise."""
    if low <= number <= high:
        return number
    least, most = plain(Fraction(low)), plain(Fraction(high))
    unit = unit and f" {unit}"
    mend = f"Write an amount from {least}{unit} to {most}{unit}."
    unquoted = "This amount cannot be right here.", mend
    raise Refusal("out-of-bounds", f"{plain(number)}{unit} cannot be right here.", mend, unquoted=unquoted)
