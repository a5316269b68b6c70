"""The amounts that fields hold, each tied to the grammar that reads it, and to a pattern for editors.

A pattern never refuses what the grammar reads (a test tries both); it need not find every mistake.
"""

from collections.abc import Iterable
from datetime import date
from fractions import Fraction
from typing import Annotated, Any

from bowlbook.entries.entry import Reads
from bowlbook.reading import read_amount
from bowlbook.reading.amount import Count, Mass, Ratio, Volume

NUMBER = r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,6})?"
UP_TO_100 = r"(?:100(?:\.0{1,6})?|(?:0|[1-9][0-9]?)(?:\.[0-9]{1,6})?)"
NOT_ZERO = r"(?!0(?:\.0+)?(?![0-9.]))"


def _in_any_case(unit: str) -> str:
    """A unit as a pattern for upper and lower case: patterns of JSON Schema have no flags."""
    signs = (f"[{sign.lower()}{sign.upper()}]" if sign.isalpha() else sign for sign in unit)
    return "".join(signs).replace(" ", r"\s+")


def quantity(units: Iterable[str], *examples: str, bare: bool = False) -> dict[str, Any]:
    """The schema of a number above zero with one of these units; ``bare``: or without."""
    known = "|".join(dict.fromkeys(_in_any_case(each) for each in sorted(units, key=len, reverse=True)))
    pattern = rf"^\s*{NOT_ZERO}{NUMBER}\s*(?:{known}){'?' if bare else ''}\s*$"
    return {"type": "string", "pattern": pattern, "examples": list(examples)}


def number(low: float, high: float, *examples: str) -> dict[str, Any]:
    """The schema of a number without a unit, from ``low`` to ``high``."""
    plain = {"pattern": rf"^\s*{NUMBER}\s*$", "examples": list(examples)}
    return {"type": ["number", "string"], "minimum": low, "maximum": high, **plain}


def whole(low: int, high: int, of: str) -> Reads:
    """Reads a whole number from ``low`` to ``high``."""
    schema = {**number(low, high, str(low)), "type": ["integer", "string"]}
    return Reads(lambda text: read_amount.read_whole(text, low, high, of), schema)


FEW = 10
"""Up to as many numbers, a pattern also says that the lower one comes first."""


def span(low: int, high: int, of: str) -> Reads:
    """Reads ``low-high`` or one whole number."""
    ends = [str(each) for each in range(low, high + 1)]
    pairs = [(f"(?:{'|'.join(ends)})", ends)]
    if len(ends) <= FEW:
        pairs = [(first, ends[place:]) for place, first in enumerate(ends)]
    pattern = "|".join(rf"{first}(?:\s*[-–]\s*(?:{'|'.join(last)}))?" for first, last in pairs)
    schema: dict[str, Any] = {"type": ["integer", "string"], "minimum": low, "maximum": high}
    schema |= {"pattern": rf"^\s*(?:{pattern})\s*$", "examples": [f"{low}-{high}"]}
    return Reads(lambda text: read_amount.read_span(text, low, high, of), schema)


_SIDE = rf"\s*(?!0(?:\.0+)?\s*(?::|$)){UP_TO_100}\s*"
_RATIO = {"type": "string", "pattern": f"^{_SIDE}:{_SIDE}$", "examples": ["1:2", "1:1.5"]}
_MONTH, _DAY = "(?:0[1-9]|1[0-2])", "(?:0[1-9]|[12][0-9]|3[01])"
_DATE = {"type": "string", "pattern": rf"^\s*2[01][0-9]{{2}}-{_MONTH}-{_DAY}\s*$"}
_NET = {**read_amount.MASS_UNITS, **read_amount.VOLUME_UNITS, **read_amount.COUNT_UNITS}

MassField = Annotated[Mass, Reads(read_amount.read_mass, quantity(read_amount.MASS_UNITS, "450 g", "0.5 oz"))]
Net = Annotated[
    Mass | Volume | Count,
    Reads(read_amount.read_net, quantity(_NET, "450 g", "1 L", "16 fl oz", "1 US pint", "500 pieces")),
]
RatioField = Annotated[Ratio, Reads(read_amount.read_ratio, _RATIO)]
Percent = Annotated[Fraction, Reads(read_amount.read_percent, quantity(["%"], "6 %"))]
VolumeStrength = Annotated[
    Fraction, Reads(read_amount.read_volume_strength, quantity(read_amount.STRENGTH_UNITS, "20 volume"))
]
BareVolume = Annotated[
    Fraction,
    Reads(
        read_amount.read_bare_volume,
        {**number(1, 60, "20"), "pattern": quantity(read_amount.STRENGTH_UNITS, bare=True)["pattern"]},
    ),
]
Density = Annotated[Fraction, Reads(read_amount.read_density, quantity(["g/mL"], "1.02 g/mL"))]
Minutes = Annotated[
    Fraction, Reads(read_amount.read_minutes, quantity(read_amount.DURATION_UNITS, "35 minutes"))
]
Days = Annotated[int, Reads(read_amount.read_days, quantity(read_amount.DAY_UNITS, "180 days"))]
Money = Annotated[Fraction, Reads(read_amount.read_money, number(0.001, 999_999, "39.00"))]
Parts = Annotated[Fraction, Reads(read_amount.read_parts, number(0.01, 100, "2"))]
Date = Annotated[date, Reads(read_amount.read_date, {**_DATE, "examples": ["2026-10-02"], "format": "date"})]
