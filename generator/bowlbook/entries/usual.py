"""The usual stops, tests and limits of a visit that come with the program: `usual.yml`, read as rules."""

from functools import cache
from typing import Annotated

from bowlbook.entries.amounts import whole
from bowlbook.entries.entry import Part, said
from bowlbook.entries.own_list import own_list
from bowlbook.entries.rule import Rule


class Usual(Part):
    """What holds in every house. A house may allow less lift in a visit and ask for more weeks, not else."""

    lift_in_a_visit: Annotated[int, whole(1, 9, "levels of lift")] = said(
        "The most levels of lift in one visit, for sound hair.", public=True
    )
    weeks_between_visits: Annotated[int, whole(1, 52, "weeks")] = said(
        "The fewest weeks from one visit to the next.", public=True
    )
    rules: tuple[Rule, ...] = said("The stops, tests and limits.", public=True)


@cache
def usual() -> Usual:
    """The usual rules, read once. Common practice without a published source where a rule says so."""
    return own_list(Usual, "usual.yml")
