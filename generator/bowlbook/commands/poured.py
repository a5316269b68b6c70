"""Options on what is in the bowl already: ``--poured ID=WEIGHT``, ``--scale-shows WEIGHT --after ID``."""

import re
from fractions import Fraction

import click

from bowlbook.commands.printer import wrong_use
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.correction import Correction, TooLittleShown, correct, weight_shown
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.unit import in_unit
from bowlbook.reading.amount import Mass
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.read_amount import read_mass
from bowlbook.reading.refusal import Refusal

LEFT_OUT = re.compile(r"0(?:\.0+)?\s*(oz|g)")
"""Zero, which is no weight elsewhere: a pour that was left out although a later one is in the bowl."""


def correction_of(
    bowl: Bowl, poured: tuple[str, ...], shows: Mass | None, after: str | None
) -> Correction | None:
    """The correction that these options ask for; None without any. Raises `click.UsageError`."""
    if (shows is None) != (after is None):
        raise click.UsageError("--scale-shows and --after go together: what it shows, and after which pour.")
    weights = _weights(bowl, poured)
    if shows is not None and after is not None:
        place = _place(bowl, after, "--after")
        if place in weights:
            raise click.UsageError(f'What "{after}" weighs is given twice, by --poured and by --after.')
        try:
            planned = [each.weigh for each in bowl.weighing.readings]
            weights[place] = weight_shown(place, _in_bowl_unit(bowl, shows), planned, weights)
        except TooLittleShown as error:
            places = max(decimals_of(bowl.step), decimals_of(error.before))
            raise click.UsageError(
                f"Before {bowl.pours[place].product.name} the scale showed "
                f"{fixed(error.before, places)} {bowl.unit}, so that after it {shows} cannot be right. "
                "Read the scale again, or say with --poured what is in the bowl."
            ) from error
    if not weights:
        return None
    try:
        return correct(bowl.batch, bowl.weighing.parts, bowl.weighing.ratios, bowl.step, weights)
    except ValueError as error:
        raise click.UsageError(f"{error}.") from error


def _weights(bowl: Bowl, poured: tuple[str, ...]) -> dict[int, Fraction]:
    """Each ``ID=WEIGHT`` as its place in pouring order and its weight in the bowl's unit."""
    weights: dict[int, Fraction] = {}
    for text in poured:
        product, sign, weight = text.partition("=")
        if not sign:
            raise click.UsageError(f'--poured takes PRODUCT=WEIGHT, as "{product}=0.45{bowl.unit}".')
        place = _place(bowl, product, "--poured")
        if place in weights:
            raise click.UsageError(f'--poured gives the weight of "{product}" twice.')
        # Read apart, because no other amount of a book may be zero.
        left_out = LEFT_OUT.fullmatch(weight.strip())
        with wrong_use(Refusal):
            weights[place] = Fraction(0) if left_out else _in_bowl_unit(bowl, read_mass(weight))
    return weights


def _place(bowl: Bowl, product: str, option: str) -> int:
    ids = [each.product.id for each in bowl.pours]
    if product not in ids:
        raise click.UsageError(f'{option}: "{product}" is not in this bowl. {did_you_mean(product, ids)}')
    return ids.index(product)


def _in_bowl_unit(bowl: Bowl, mass: Mass) -> Fraction:
    """A weight in the bowl's unit. Raises `click.UsageError` for another system of units, because a converted
    weight is no reading of this scale."""
    if (mass.unit in ("oz", "lb")) != (bowl.unit == "oz"):
        raise click.UsageError(
            f"The bowl is weighed in {bowl.unit}, and {mass} is not: give it as the scale shows it in "
            f"{bowl.unit}, or give --batch in {mass.unit}."
        )
    return in_unit(mass, bowl.unit)
