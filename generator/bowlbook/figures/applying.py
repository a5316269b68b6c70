"""How many sections a head takes and how long applying them takes. Rules: pages/manual/services.md."""

from fractions import Fraction
from math import ceil
from typing import NamedTuple

from bowlbook.entries.hair_amount import DENSITIES
from bowlbook.entries.house import House
from bowlbook.entries.technique import Technique, TechniqueBowl


class HairFactors(NamedTuple):
    """How much more or less a head takes than the one that a technique was measured on."""

    length: Fraction
    density: Fraction

    def of(self, bowl: TechniqueBowl) -> Fraction:
        """The factor of a bowl's mix: regrowth, which is zone 1 alone, does not grow with length."""
        return self.density if bowl.zones == ("1",) else self.length * self.density


class Applying(NamedTuple):
    """One bowl of a technique on one head.

    ``span`` numbers the stretch of time in which it is used, from 0; bowls used by turns share one.
    ``minutes`` is how long that stretch takes, None where a bowl in it does not say.
    """

    sections: int | None
    span: int
    minutes: Fraction | None


def applying(technique: Technique, density: Fraction, hands: int) -> tuple[Applying, ...]:
    """The bowls of a technique on a head of a density factor, applied by ``hands`` people at once."""
    sections = [sections_of(bowl, density) for bowl in technique.bowls]
    spans: list[int] = []
    together: list[Fraction | None] = []
    for bowl, count in zip(technique.bowls, sections, strict=True):
        minutes = _minutes(bowl, count, density, hands)
        # Bowls by turns stand open all the while, so each is open as long as all of them take.
        if bowl.by_turns and together:
            before = together.pop()
            minutes = None if minutes is None or before is None else before + minutes
        spans.append(len(together))
        together.append(minutes)
    return tuple([Applying(count, span, together[span]) for count, span in zip(sections, spans, strict=True)])


def measured_densities(house: House) -> dict[str, Fraction]:
    """The house's factor of each density that it has measured, thin hair first."""
    amounts = house.hair_amounts
    factors = {word: getattr(amounts.density, word) for word in DENSITIES} if amounts else {}
    return {word: factor for word, factor in factors.items() if factor is not None}


def sections_of(bowl: TechniqueBowl, density: Fraction) -> int | None:
    """The sections of a bowl on a head, rounded up; one section covers everything at once and stays one."""
    if bowl.sections is None or bowl.sections == 1:
        return bowl.sections
    return -(-bowl.sections * density.numerator // density.denominator)


def supply_count(technique: Technique, count: int, density: Fraction) -> int:
    """How many pieces a head takes of a supply that goes with the sections, rounded up.

    In proportion to all sections of the bowls with more than one, so that no bowl's sections lack one.
    """
    bowls = [bowl for bowl in technique.bowls if bowl.sections and bowl.sections > 1]
    if not bowls:
        return count
    taken = sum(sections_of(each, density) or 0 for each in bowls)
    written = sum(each.sections or 0 for each in bowls)
    return ceil(Fraction(count * taken, written))


def _minutes(bowl: TechniqueBowl, sections: int | None, density: Fraction, hands: int) -> Fraction | None:
    """How long one bowl takes; ``sections``: those of this head."""
    if bowl.minutes_per_section is None or bowl.sections is None:
        return None
    # One section covers everything at once: a second person has nothing to take over.
    if bowl.sections == 1:
        return bowl.minutes_per_section * density
    minutes, parts = bowl.minutes_per_section.as_integer_ratio()
    return Fraction(minutes * (sections or 0), parts * hands)
