"""A blend's parts and ratios by weight, as the recipe says them: no size and no rounding."""

from fractions import Fraction

from bowlbook.entries.blend import Blend
from bowlbook.figures.exact_sum import in_common


def proportions(blend: Blend) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    """A blend's parts, and its ratios to all parts together: the developer's first, then each additive's."""
    parts = tuple([each.parts for each in blend.shares])
    return parts, (blend.developer.ratio.value, *[each.ratio.value for each in blend.additives])


def parts_in_bowl(blend: Blend) -> tuple[Fraction, ...]:
    """Each pour in parts of the same weight as the blend's own, in pouring order."""
    parts, ratios = proportions(blend)
    base = sum(parts, Fraction(0))
    return (*parts, *(base * ratio for ratio in ratios))


def developer_share(blend: Blend) -> Fraction:
    """The developer's share of everything in the bowl, as a fraction of 1."""
    return proportions(blend)[1][0] * base_share(blend)


def base_share(blend: Blend) -> Fraction:
    """The share of everything in the bowl that all lightener, or toner, has together, as a fraction of 1."""
    numerators, common = in_common(proportions(blend)[1])
    return Fraction(common, common + sum(numerators))
