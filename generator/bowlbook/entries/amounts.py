"""The amounts that fields hold, each tied to the grammar that reads it."""

from datetime import date
from fractions import Fraction
from typing import Annotated

from bowlbook.entries.entry import Reads
from bowlbook.reading import amount


def whole(low: int, high: int, of: str) -> Reads:
    """Reads a whole number from ``low`` to ``high``."""
    return Reads(lambda text: amount.read_whole(text, low, high, of), {"examples": [str(low)]})


def span(low: int, high: int, of: str) -> Reads:
    """Reads ``low-high`` or one whole number."""
    return Reads(lambda text: amount.read_span(text, low, high, of), {"examples": [f"{low}-{high}"]})


MassField = Annotated[amount.Mass, Reads(amount.read_mass, {"examples": ["450 g", "0.5 oz"]})]
Net = Annotated[
    amount.Mass | amount.Volume | amount.Count,
    Reads(amount.read_net, {"examples": ["450 g", "1 L", "16 fl oz", "1 US pint", "500 pieces"]}),
]
RatioField = Annotated[amount.Ratio, Reads(amount.read_ratio, {"examples": ["1:2", "1:1.5"]})]
Percent = Annotated[Fraction, Reads(amount.read_percent, {"examples": ["6 %"]})]
VolumeStrength = Annotated[Fraction, Reads(amount.read_volume_strength, {"examples": ["20 volume"]})]
BareVolume = Annotated[Fraction, Reads(amount.read_bare_volume, {"examples": ["20"]})]
Density = Annotated[Fraction, Reads(amount.read_density, {"examples": ["1.02 g/mL"]})]
Minutes = Annotated[Fraction, Reads(amount.read_minutes, {"examples": ["35 minutes"]})]
Days = Annotated[int, Reads(amount.read_days, {"examples": ["180 days"]})]
Money = Annotated[Fraction, Reads(amount.read_money, {"examples": ["39.00"]})]
Parts = Annotated[Fraction, Reads(amount.read_parts, {"examples": ["2"]})]
Date = Annotated[date, Reads(amount.read_date, {"examples": ["2026-10-02"], "format": "date"})]
