"""How much more or less a head takes than the one a technique was measured on."""

from fractions import Fraction
from functools import cached_property
from itertools import product
from typing import Annotated

from bowlbook.entries.amounts import number
from bowlbook.entries.entry import Part, Reads, said
from bowlbook.entries.facets import DENSITIES as DENSITIES
from bowlbook.reading.quantity import bounded, read_number

LENGTHS = ("short", "medium", "long", "extra_long")
HEADS = tuple(product(LENGTHS, DENSITIES))


def read_factor(text: str) -> Fraction:
    """A factor such as 1.3, from 0.1 to 10."""
    factor = read_number(text, wanted="a factor", example="1.3")
    return bounded(factor, Fraction(1, 10), 10, "")


Factor = Annotated[Fraction, Reads(read_factor, number(0.1, 10, "1.3"))]


class LengthFactors(Part):
    """Factors by length; a length left out has not been measured."""

    short: Factor | None = said("Above the shoulder.", public=True, default=None)
    medium: Factor | None = said("On the shoulder.", public=True, default=None)
    long: Factor | None = said("Below the shoulder.", public=True, default=None)
    extra_long: Factor | None = said("To the waist.", public=True, default=None)


class DensityFactors(Part):
    """Factors by density; a density left out has not been measured."""

    thin: Factor | None = said("Thin hair.", public=True, default=None)
    medium: Factor | None = said("Medium hair.", public=True, default=None)
    thick: Factor | None = said("Thick hair.", public=True, default=None)


class HairAmounts(Part):
    """The house's hair-amount factors: a head takes length x density times what was measured.

    Regrowth takes density alone: see `bowlbook.figures.applying`.
    """

    length: LengthFactors = said("By length.", public=True)
    density: DensityFactors = said("By density.", public=True)

    @cached_property
    def heads(self) -> dict[tuple[str, str], tuple[Fraction, Fraction]]:
        """The factors of each length and density that were both measured, in the order of the lists.

        Kept: every technique of a house asks.
        """
        found = {(of, at): (getattr(self.length, of), getattr(self.density, at)) for of, at in HEADS}
        return {head: factors for head, factors in found.items() if None not in factors}

    @cached_property
    def extremes(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """The factors of the hair that takes least and of that which takes most; none if none is measured.

        Kept, as `heads`.
        """
        if not self.heads:
            return ()
        lengths, densities = zip(*self.heads.values(), strict=True)
        return tuple(dict.fromkeys((pick(lengths), pick(densities)) for pick in (min, max)))
