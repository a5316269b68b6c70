"""What one cell says, as an entry writes it. Nothing is guessed: `Unclear` asks where it is not certain."""

import json
import math
import re
from collections.abc import Sequence
from contextlib import suppress
from decimal import Decimal
from fractions import Fraction

from bowlbook.entries.facets import FACET_WORDS
from bowlbook.figures.cost import minor_units
from bowlbook.importing.field_cell import FieldCell
from bowlbook.importing.number import Unclear, decimal_text, number_in
from bowlbook.importing.said import ADDITIVE_FIRST, DAYS, LIGHTENER_FIRST, NET_UNITS, PART_OF_ONE
from bowlbook.importing.words import meanings, simplified, words
from bowlbook.reading.read_amount import COUNT_UNITS, MASS_UNITS, VOLUME_UNITS

CELL_NUMBER = r"[0-9]*\s*[½¼¾⅓⅔⅛⅜⅝⅞]|[0-9]+(?:\s+|-)[0-9]+/[0-9]+|[.,]?[0-9][0-9.,'’ ]*(?:\s*/\s*[0-9]+)?"
AMOUNT = re.compile(rf"(?P<number>{CELL_NUMBER})\s*(?P<unit>[^\W\d_].*)?")
SIDES = re.compile(r"\s*[:+]\s*")
CURRENCY = re.compile(r"[A-Za-z]{3}|[€£₤$]")
SIGNS = {"€": "EUR", "£": "GBP", "₤": "GBP"}
DOLLARS = ("AUD", "CAD", "HKD", "NZD", "SGD", "USD")
UNIT_WORDS = {
    **{name.lower(): unit for name, unit in (MASS_UNITS | VOLUME_UNITS | COUNT_UNITS).items()},
    **dict.fromkeys(("gr", "gramm", "gramme", "grammes", "gramos", "gramas", "grammi", "gramo", "gram"), "g"),
    **dict.fromkeys(("ounce", "unze", "unzen", "once", "onces", "onza", "onzas", "onca", "oncas"), "oz"),
    **dict.fromkeys(("kilo", "kilos", "kilogramm", "kilogram"), "kg"),
    **dict.fromkeys(("lt", "ltr", "liter", "litre", "litres", "litro", "litros", "litri"), "L"),
    **dict.fromkeys(("milliliter", "millilitre", "mililitros", "millilitri", "cc"), "mL"),
    **dict.fromkeys(("fl. oz", "fl.oz", "fl oz.", "fl. oz.", "floz", "fluid ounces", "us fl oz"), "fl oz"),
}
"""The unit as an entry writes it, by the words that tables use for it."""


def unit_of(text: str) -> str | None:
    """The unit that a text means for certain; None for any other text."""
    known = " ".join(text.lower().split())
    if simplified(text) in words("pieces") and known not in UNIT_WORDS:
        return "pieces"
    return UNIT_WORDS.get(known) or UNIT_WORDS.get(known.rstrip("."))


def read_ratio(cell: FieldCell) -> str:
    """``1:2``, ``1+2``, ``1 to 1,5``, ``half/half``; also where the program made a time of it."""
    left, right = _two_sides(cell)
    return f"{decimal_text(left)}:{decimal_text(right)}"


def read_dose(cell: FieldCell) -> str:
    """Lightener to additive. Where there would be more of the additive, which is which is not certain."""
    left, right = _two_sides(cell)
    if cell.unit == ADDITIVE_FIRST:
        left, right = right, left
    if right > left and cell.unit != LIGHTENER_FIRST:
        mend = f"Write lightener to additive, as {decimal_text(right)}:{decimal_text(left)}."
        answers = () if cell.unit == ADDITIVE_FIRST else (ADDITIVE_FIRST, LIGHTENER_FIRST)
        raise Unclear("Is this more of the additive than of the lightener?", mend, answers=answers)
    return f"{decimal_text(left)}:{decimal_text(right)}"


def _two_sides(cell: FieldCell) -> tuple[Fraction, Fraction]:
    sides = read_sides(cell)
    if len(sides) != 2:
        raise Unclear("This is not two numbers.", "Write a ratio as 1:2.")
    return sides[0], sides[1]


def read_sides(cell: FieldCell) -> list[Fraction]:
    """The numbers of a ratio or of parts, one or more. Raises `Unclear`."""
    text = cell.text
    if cell.kind == "date":
        raise Unclear(f"The spreadsheet program made the day {text} of it.", "Write it as text, as 1:2.")
    # Spreadsheets turn 1:2 into the time 01:02. Seconds or a zero show that it was another text.
    if cell.kind == "time":
        if text.count(":") > 1 or "0" in text.split(":"):
            raise Unclear(f"The spreadsheet program made the time {text} of it.", "Write it as text, as 1:2.")
        return [Fraction(side) for side in text.split(":")]
    by_sign = re.fullmatch(r"(.+?)\s*[/\-+:]\s*(.+)", text)
    halves = by_sign or re.fullmatch(r"(\S+) \S+ (\S+)", simplified(text))
    if halves and all(simplified(side) in words("half") for side in halves.groups()):
        return [Fraction(1), Fraction(1)]
    slash = re.fullmatch(r"([0-9]{1,3})\s*/\s*([0-9]{1,3})", text)
    if slash:
        one, other = (Fraction(side) for side in slash.groups())
        if one == other:
            return [Fraction(1), Fraction(1)]
        if one + other == 100 or cell.unit == "ratio":
            return [one, other]
        mend = f"Write {slash[1]}:{slash[2]} for a ratio."
        raise Unclear("This could be a ratio or a fraction.", mend, answers=("ratio",))
    sides = SIDES.split(text)
    if len(sides) == 1:
        found = re.fullmatch(rf"({CELL_NUMBER})\s+([^\W\d_]+)\s+({CELL_NUMBER})", text)
        if found and simplified(found[2]) in words("to"):
            sides = [found[1], found[3]]
    return [_bare(side, cell.decimal) for side in sides]


def _bare(text: str, decimal: str) -> Fraction:
    """A number, with the word parts behind it at most."""
    found = AMOUNT.fullmatch(text.strip())
    if found is None or (found["unit"] and simplified(found["unit"]) not in words("parts")):
        raise Unclear("This is not certain.", "Write a ratio as 1:2, and parts as 2 or as 2:1.")
    return number_in(found["number"], decimal)


def amount_in(cell: FieldCell) -> re.Match[str] | None:
    """The number and the unit in a cell; None where it holds anything else, as a time or a day."""
    return AMOUNT.fullmatch(cell.text) if cell.kind in ("text", "number") else None


def weight_of(cell: FieldCell) -> tuple[Fraction, str] | None:
    """A weight and its unit; None where it has none, in the cell or at the head of its column."""
    found = amount_in(cell)
    if found is None:
        return None
    written = unit_of(found["unit"]) if found["unit"] else unit_of(cell.unit)
    if written == "fl oz" or written in ("mL", "L"):
        raise Unclear("This is a volume; a recipe is by weight.", "Write what the scale shows, as 30 g.")
    return (number_in(found["number"], cell.decimal), written) if written in ("g", "kg", "oz", "lb") else None


def whole_parts(numbers: Sequence[Fraction]) -> list[str]:
    """Parts in the smallest whole numbers: 30 and 10 are 3 and 1."""
    scale = math.lcm(*(number.denominator for number in numbers))
    wholes = [int(number * scale) for number in numbers]
    return [str(whole // math.gcd(*wholes)) for whole in wholes]


def read_net(cell: FieldCell) -> str:
    """The net content of a pack: ``1 kg``, ``500 Stück``, or a number under a column with a unit."""
    found = amount_in(cell)
    written = None if found is None else unit_of(found["unit"] or cell.unit)
    if found is None or written is None:
        bare = found is not None and not found["unit"]
        mend = "Write it as 450 g, 1 L, 16 fl oz or 500 pieces."
        raise Unclear("The unit is not certain.", mend, answers=NET_UNITS if bare else ())
    return f"{decimal_text(number_in(found['number'], cell.decimal))} {written}"


def read_price(cell: FieldCell, currency: str) -> str:
    """A price in the house's currency: ``€ 31,90``, ``31.90 EUR``, ``31,90``."""
    text = cell.text
    for piece in CURRENCY.findall(f"{text} {cell.unit}"):
        code = currency if piece == "$" and currency in DOLLARS else SIGNS.get(piece, piece.upper())
        if code != currency:
            raise Unclear("The currency is not the house's for certain.", f"Write the price in {currency}.")
    number = number_in(CURRENCY.sub("", text).removesuffix(",-").strip(), cell.decimal)
    decimals = minor_units(currency)
    if (number * 10**decimals).denominator != 1:
        raise Unclear(f"This is finer than {currency} are.", "Write it as the supplier's bill says.")
    return str(Decimal(int(number * 10**decimals)).scaleb(-decimals))


def read_span(cell: FieldCell) -> str:
    """Levels: ``6-10``, ``6 bis 10``, ``da 6 a 10``, ``7``."""
    if cell.kind in ("date", "time"):
        raise Unclear(f"The spreadsheet program made {cell.text} of it.", "Write it as text, as 6-10.")
    ends = re.fullmatch(
        r"(?:([^\W\d_]+)\s+)?([0-9]{1,2})(?:\s*[-\u2010-\u2015\u2212]\s*|\s+([^\W\d_]+)\s+)([0-9]{1,2})",
        cell.text,
    )
    if ends and all(
        said is None or simplified(said) in words(place)
        for place, said in (("from", ends[1]), ("to", ends[3]))
    ):
        return f"{int(ends[2])}-{int(ends[4])}"
    # Spreadsheets may write the level 7 as 7.0.
    if re.fullmatch("[0-9]{1,2}(?:[.,]0)?", cell.text):
        return str(int(re.split("[.,]", cell.text)[0]))
    raise Unclear("This is neither one level nor a range.", "Write it as 6-10 or 7.")


def read_known(cell: FieldCell, of: str) -> list[str]:
    """Words of a fixed list, such as textures, in any of the known languages; none unless all are known."""
    pieces = [each for each in re.split(r"\s*[,;/+&|\n]\s*", cell.text) if each]
    if len(pieces) == 1 and simplified(pieces[0]) not in meanings(of):
        joiners = "|".join(sorted(words("to"), key=len, reverse=True))
        pieces = re.split(rf"\s+(?:{joiners})\s+", pieces[0])
    known = [meanings(of).get(simplified(piece)) for piece in pieces]
    if not known or None in known:
        choice = ", ".join(FACET_WORDS.get(of) or dict.fromkeys(meanings(of).values()))
        unknown = next((piece for piece, each in zip(pieces, known, strict=True) if each is None), cell.text)
        raise Unclear(f'"{unknown[:40]}" is not a known word here.', f"Write one or more of: {choice}.")
    return [each for each in dict.fromkeys(meanings(of).values()) if each in known]


def read_word(cell: FieldCell, of: str) -> str:
    """One word of a kind; several are refused."""
    found = read_known(cell, of)
    if len(found) != 1:
        raise Unclear("There are several words here.", "Write one.")
    return found[0]


def read_volume(cell: FieldCell) -> str:
    """A developer's strength in volumes: ``20 vol``, ``20``."""
    found = AMOUNT.fullmatch(cell.text.rstrip("."))
    if found is None or (found["unit"] and simplified(found["unit"]) not in words("volume")):
        raise Unclear("This is not a strength in volumes.", "Write it as 20 volume.")
    return decimal_text(number_in(found["number"], cell.decimal))


def read_percent(cell: FieldCell) -> str:
    """``6 %``. A spreadsheet keeps 6 % as 0.06 and does not say so: a number below 1 raises `Unclear`."""
    text, sign = re.subn(r"\s*%$", "", cell.text)
    number = number_in(text, cell.decimal)
    if not sign and cell.unit == PART_OF_ONE:
        number *= 100
    elif not sign and (cell.unit != "%" or (cell.kind == "number" and number < 1)):
        answers = (PART_OF_ONE,) if cell.unit == "%" else ("%", PART_OF_ONE)
        mend = "Write it with its sign, as 6 %."
        raise Unclear("This may be a part of 1 or of 100.", mend, answers=answers)
    return f"{decimal_text(number)} %"


def read_density(cell: FieldCell) -> str:
    """``1.02 g/mL``."""
    found = re.fullmatch(r"(?i)([0-9.,]+)\s*(g\s*/\s*(?:ml|cm3|cm³)|kg\s*/\s*l)?", cell.text)
    if found is None or not (found[2] or re.fullmatch(r"(?i)g\s*/\s*(ml|cm3|cm³)|kg\s*/\s*l", cell.unit)):
        mend, answers = "Write it as 1.02 g/mL.", ("g/mL",) if found else ()
        raise Unclear("The unit of this density is not certain.", mend, answers=answers)
    sign = "," if "," in found[1] else "."  # a density has no thousands
    return f"{decimal_text(number_in(found[1], cell.decimal or sign))} g/mL"


def read_minutes(cell: FieldCell) -> str:
    """``45 min``."""
    found = AMOUNT.fullmatch(cell.text.rstrip("."))
    if found is None or cell.kind == "time" or simplified(found["unit"] or cell.unit) not in words("minutes"):
        bare = found is not None and not found["unit"] and cell.kind != "time"
        answers = ("minutes",) if bare else ()
        question = "This is not a number of minutes for certain."
        raise Unclear(question, "Write it as 45 minutes.", answers=answers)
    return f"{decimal_text(number_in(found['number'], cell.decimal))} minutes"


def read_day(cell: FieldCell) -> str:
    """A day: ``2026-10-02``, ``2.10.2026``, ``25/10/2026``; ``02/10/2026`` if the table's order is known."""
    iso = re.fullmatch(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:[ T]00:00:00)?", cell.text)
    if iso:
        return iso[1]
    dotted = re.fullmatch(r"([0-9]{1,2})\.\s?([0-9]{1,2})\.\s?([0-9]{4})", cell.text)
    if dotted:  # with points the day comes first, wherever days are written so
        return f"{dotted[3]}-{int(dotted[2]):02}-{int(dotted[1]):02}"
    slashed = re.fullmatch(r"([0-9]{1,2})[/-]([0-9]{1,2})[/-]([0-9]{4})", cell.text)
    if slashed:
        first, second = int(slashed[1]), int(slashed[2])
        if first > 12 or first == second or (cell.days == "day first" and second <= 12):
            return f"{slashed[3]}-{second:02}-{first:02}"
        if second > 12 or cell.days == "month first":
            return f"{slashed[3]}-{first:02}-{second:02}"
    question = "Which is the day, and which the month?"
    raise Unclear(question, "Write it as 2026-10-02.", answers=DAYS if slashed else (), setting="days")


def read_text(cell: FieldCell) -> str:
    """A text as it is, with its lines."""
    return cell.text


def read_words(cell: FieldCell) -> str:
    """A text on one line."""
    return cell.words


def read_list(cell: FieldCell) -> list[str]:
    """Sentences: one a line of the cell."""
    return [" ".join(line.split()) for line in cell.text.split("\n") if line.strip()]


def read_names(cell: FieldCell) -> list[str]:
    """Names or ids: one a line, or with semicolons between."""
    return [" ".join(each.split()) for each in re.split(r"[;\n]", cell.text) if each.strip()]


def read_json(cell: FieldCell) -> object:
    """What ``bowlbook export`` writes where a cell holds more than a list. Raises `Unclear`."""
    with suppress(ValueError, RecursionError):
        value = json.loads(cell.text)
        if _is_texts(value):
            return value
    question = "This says something that an entry writes in several fields."
    raise Unclear(question, "Write it into the entry, in the place of the gap.")


def _is_texts(value: object) -> bool:
    """Whether every value in some JSON is a text, as an entry's are."""
    if isinstance(value, dict | list):
        return all(map(_is_texts, value.values() if isinstance(value, dict) else value))
    return isinstance(value, str)


def is_any(cell: FieldCell, facet: str) -> bool:
    """Whether a cell says that any will do. Not where all is a value of its own, as of grey hair."""
    said = simplified(cell.text)
    return said == "any" or (said in words("any") and "all" not in meanings(facet))
