"""Developers by name and volume, and the developers and placements of an answer."""

from fractions import Fraction

from bowlbook.entries.product import Developer
from bowlbook.figures.use import Use
from bowlbook.reading.amount import plain
from bowlbook.wording.listing import either


def developer_name(developer: Developer) -> str:
    """A developer's name with its volume, where the name does not say it: ``Strong cream (40 volume)``."""
    volume = f"{plain(developer.volume)} volume"
    return developer.name if volume in developer.name else f"{developer.name} ({volume})"


def volumes(strength: Fraction) -> str:
    """A developer's strength, as ``20 volume``."""
    return f"{plain(strength)} volume"


def with_volume(developer: Developer) -> str:
    """A developer's name with its strength, which is added where the name does not say it."""
    # Many makers put the volume into the name: twice in a line, it reads like two developers.
    strength = volumes(developer.volume)
    return developer.name if strength in developer.name.casefold() else f"{developer.name}, {strength}"


def mixed_with(use: Use) -> str:
    """What an answer is mixed with, where it goes and how long: ``With Developer, 20 volume; foil. At most 45
    minutes, first check after 5.``"""
    where = either(use.placements) or "at the basin"
    mixed = f"With {' or '.join(map(with_volume, use.developers))}; {where}."
    if use.minutes is None or use.check_every is None:
        return mixed
    return f"{mixed} At most {plain(use.minutes)} minutes, first check after {plain(use.check_every)}."
