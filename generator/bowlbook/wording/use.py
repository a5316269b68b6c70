"""How an answer is mixed: its developers, placements and minutes in one sentence."""

from bowlbook.figures.use import Use
from bowlbook.reading.amount import plain
from bowlbook.wording.developer import with_volume
from bowlbook.wording.listing import either


def mixed_with(use: Use) -> str:
    """What an answer is mixed with, where it goes and how long: ``With Developer, 20 volume; foil. At most 45
    minutes, first check after 5.``"""
    where = either(use.placements) or "at the basin"
    mixed = f"With {' or '.join(map(with_volume, use.developers))}; {where}."
    if use.minutes is None or use.check_every is None:
        return mixed
    return f"{mixed} At most {plain(use.minutes)} minutes, first check after {plain(use.check_every)}."
