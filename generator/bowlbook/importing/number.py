"""Numbers as people write them in tables: read where they can mean one thing, else the question is raised.

``1,5`` and ``1.5`` are the same; ``1 250,5`` and ``1.250,5`` too. ``1,250`` and ``1.250`` could be either,
unless the table's decimal sign was said. ``1/2``, ``½``, ``1 1/2`` and ``1-1/2`` are fractions.
"""

import re
import unicodedata
from fractions import Fraction

from bowlbook.importing.said import DECIMAL

SIGN = "½¼¾⅓⅔⅛⅜⅝⅞"
FRACTIONS = {sign: Fraction(unicodedata.numeric(sign)).limit_denominator(8) for sign in SIGN}
MIXED = re.compile(rf"(?:(?P<whole>[0-9]{{1,4}})\s*)?(?P<sign>[{SIGN}])")
BROKEN = re.compile(
    r"(?:(?P<whole>[0-9]{1,4})(?:\s+|-))?(?P<top>[0-9]{1,3})\s*[/\u2044]\s*(?P<under>[0-9]{1,3})"
)
DIGITS = re.compile(r"[0-9]{1,9}(?:[.,][0-9]+)?|[.,][0-9]+")
GROUPED = re.compile(
    r"[1-9][0-9]{0,2}(?:(?P<group>[.,' ’])[0-9]{3})(?:(?P=group)[0-9]{3})*(?:(?P<point>[.,])[0-9]+)?"
)


class Unclear(Exception):
    """What a cell says is not certain. The message is the question; ``mend`` says how to write it.

    ``answers``: those of which one settles it for many cells. ``setting``: what that is said of, decimal or
    days of the whole table, or means of one column.
    """

    def __init__(
        self, question: str, mend: str = "", *, answers: tuple[str, ...] = (), setting: str = "means"
    ) -> None:
        super().__init__(question)
        self.question = question
        self.mend = mend
        self.answers = answers
        self.setting = setting


def number_in(text: str, decimal: str = "") -> Fraction:
    """A number without a unit. ``decimal``: the table's decimal sign, where somebody said it.

    Raises `Unclear`.
    """
    text = text.strip()
    mixed = MIXED.fullmatch(text)
    if mixed:
        return int(mixed["whole"] or 0) + FRACTIONS[mixed["sign"]]
    broken = BROKEN.fullmatch(text)
    if broken and int(broken["under"]):
        part = Fraction(int(broken["top"]), int(broken["under"]))
        if part < 1 or not broken["whole"]:
            return int(broken["whole"] or 0) + part
    grouped = GROUPED.fullmatch(text)
    if grouped and (grouped["group"] not in ".," or _is_grouped(text, grouped, decimal)):
        point = grouped["point"]
        front, _, behind = text.rpartition(point) if point else (text, "", "")
        if not point or point != grouped["group"]:
            return Fraction(re.sub("[^0-9]", "", front) + (f".{behind}" if behind else ""))
    elif DIGITS.fullmatch(text):
        sign = "," if "," in text else "."
        if not decimal or sign == decimal or sign not in text:
            return Fraction(text.replace(",", "."))
    raise Unclear("This is not a number that can be read for certain.", "Write digits with a point, as 1.5.")


def _is_grouped(text: str, grouped: re.Match[str], decimal: str) -> bool:
    """Whether dots or commas certainly part thousands. Raises `Unclear` where they may be decimals."""
    several = text.count(grouped["group"]) > 1 or grouped["point"] is not None
    if several or (decimal and grouped["group"] != decimal):
        return True
    if decimal:
        return False
    sign = "comma" if grouped["group"] == "," else "point"
    question = f"The {sign} could mean thousands or decimals."
    mend = "Write thousands without one, as 1250."
    raise Unclear(question, mend, answers=tuple(DECIMAL), setting="decimal")


def decimal_text(number: Fraction) -> str:
    """A number as entries have it, with at most six decimals. Raises `Unclear` where it has more."""
    scaled = number * 10**6
    if scaled.denominator != 1:
        raise Unclear("This has no exact decimal number.", "Write it as a decimal.")
    whole, part = divmod(int(scaled), 10**6)
    tail = f"{part:06}".rstrip("0")
    return f"{whole}.{tail}" if tail else str(whole)
