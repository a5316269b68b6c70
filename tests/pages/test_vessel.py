"""The bowl as a vessel: to scale by weight, in pouring order from the bottom, no letter over another."""

from fractions import Fraction
from itertools import pairwise

from bowlbook.book.current import current
from bowlbook.figures.bowl import ladder_of, mix
from bowlbook.pages.vessel import LETTER, Vessel, vessel_of


def shares(vessel: Vessel, name: str) -> list[Fraction]:
    """One of the places of all layers, as parts of the vessel."""
    places = (getattr(each, name) for each in vessel.layers)
    return [Fraction(each.removesuffix("%")) / 100 for each in places if each]


def test_each_pour_is_as_high_as_its_exact_weight(demo_book) -> None:
    for blend in current(demo_book.blends).values():
        unit, batch, step = ladder_of(demo_book, blend)[-1]
        pours = [each.reading.exact for each in mix(demo_book, blend, unit, batch, step).pours]
        vessel = vessel_of(demo_book, blend)
        found = shares(vessel, "height")
        # Developer and additives follow the lighteners as weighed, so exact weights are a step off.
        assert all(
            abs(one - each / sum(pours)) < Fraction(2, 100) for one, each in zip(found, pours, strict=True)
        )
        tops = shares(vessel, "y")
        assert tops == sorted(tops, reverse=True) and vessel.layers[0].letter == "A"
        for beneath, top, height in zip(tops, tops[1:], found[1:], strict=False):
            assert abs(top + height - beneath) <= Fraction(1, 5000)


def test_letters_have_room_and_only_thin_layers_have_none(demo_book) -> None:
    without = 0
    for blend in current(demo_book.blends).values():
        vessel = vessel_of(demo_book, blend)
        rows = len(vessel.layers)
        for each in vessel.layers:
            height = Fraction(each.height.removesuffix("%")) / 100
            assert bool(each.middle) == (height * rows >= LETTER)
            without += not each.middle
        assert all(abs(one - other) * rows >= LETTER for one, other in pairwise(shares(vessel, "middle")))
    assert without, "the demo book has a layer too thin for a letter"
