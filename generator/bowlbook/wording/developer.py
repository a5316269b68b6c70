"""Developers by name and volume."""

from fractions import Fraction

from bowlbook.entries.product import Developer
from bowlbook.reading.amount import plain


def developer_name(developer: Developer) -> str:
    """A developer's name with its volume, where the name does not say it: ``Strong cream (40 volume)``."""
    volume = volumes(developer.volume)
    return developer.name if volume in developer.name else f"{developer.name} ({volume})"


def volumes(strength: Fraction) -> str:
    """A developer's strength, as ``20 volume``."""
    return f"{plain(strength)} volume"


def with_volume(developer: Developer) -> str:
    """A developer's name with its strength, which is added where the name does not say it."""
    # Many makers put the volume into the name: twice in a line, it reads like two developers.
    strength = volumes(developer.volume)
    return developer.name if strength in developer.name.casefold() else f"{developer.name}, {strength}"
