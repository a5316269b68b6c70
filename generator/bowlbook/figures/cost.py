"""Figure 8: what a bowl costs, in whole minor units of the house's currency, lines adding up to the total."""

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.entries.product import Pack
from bowlbook.figures.exact_sum import in_common
from bowlbook.figures.rounding import fixed, half_up_of, whole_shares
from bowlbook.figures.unit import weight_of
from bowlbook.reading.amount import Count

# Source: ISO 4217, list of active codes, minor units other than 2. From memory of the published table; the
# tests hold it against Babel's data. Where ISO and CLDR differ (IQD, MGA and others) ISO is followed.
MINOR_UNITS = {
    code: places
    for places, codes in (
        (0, "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF"),
        (3, "BHD IQD JOD KWD LYD OMR TND"),
        (4, "CLF UYW"),
    )
    for code in codes.split()
}


def minor_units(currency: str) -> int:
    """How many decimals a currency's amounts carry (ISO 4217): JPY 0, CAD 2, KWD 3."""
    return MINOR_UNITS.get(currency, 2)


def decimal_of(minor: int | None, currency: str) -> str | None:
    """Whole minor units as a decimal of the currency, as ``1.41``; None stays None."""
    places = minor_units(currency)
    return None if minor is None else fixed(Fraction(minor, 10**places), places)


class Bill(NamedTuple):
    """Lines and their total, in whole minor units (cents). The lines that are known add up to the total.

    A line is None where its price is missing; ``total`` is then that of the others.
    """

    lines: tuple[int | None, ...]
    total: int

    @property
    def complete(self) -> bool:
        """Whether no price is missing."""
        return None not in self.lines


def price_per_gram(pack: Pack | None, density: Fraction | None) -> Fraction | None:
    """Price over net content in grams, exact, in the house's currency.

    A volume is weighed through ``density`` (g/mL). None where there is no price, or the content is not a
    weight and cannot be made one.
    """
    if pack is None or pack.price is None or isinstance(pack.net, Count):
        return None
    net = weight_of(pack.net, density)
    return None if net is None else pack.price / net


def price_per_piece(pack: Pack | None) -> Fraction | None:
    """Price over the number of pieces, exact; None where there is no price or it is not sold by the piece."""
    if pack is None or pack.price is None or not isinstance(pack.net, Count):
        return None
    return pack.price / pack.net.number


def known_total(costs: Iterable[int | None]) -> int | None:
    """The sum of the costs in minor units that are known; None where none is."""
    known = [cost for cost in costs if cost is not None]
    return sum(known) if known else None


def bill(costs: Sequence[Fraction | None], places: int) -> Bill:
    """Exact costs as whole minor units: the total rounded once, half up; the lines by largest remainder.

    ``places``: decimals of the currency. Ties go to the line listed first. A cost that is not known is None,
    and stays so.
    """
    known = [cost for cost in costs if cost is not None]
    numerators, common = in_common(known)
    total = half_up_of(sum(numerators) * 10**places, common)
    # Nothing can be shared in proportion where everything is free.
    lines = iter(whole_shares(total, numerators) if any(numerators) else [0] * len(known))
    return Bill(tuple([None if cost is None else next(lines) for cost in costs]), total)
