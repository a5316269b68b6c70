"""What each pour is of a bowl, by weight, as the recipe says it: no size and no rounding."""

from fractions import Fraction

from bowlbook.entries.blend import Blend


def parts_in_bowl(blend: Blend) -> tuple[Fraction, ...]:
    """Each pour in parts of the same weight as the blend's own, in pouring order.

    The ratio counts parts of lightener (or toner), so the developer is that many times all of them together,
    and so is each additive.
    """
    parts = tuple(each.parts for each in blend.shares)
    base = sum(parts, Fraction(0))
    return (
        *parts,
        base * blend.developer.ratio.value,
        *(base * each.ratio.value for each in blend.additives),
    )
