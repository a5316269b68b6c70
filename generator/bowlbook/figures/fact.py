"""One thing that differs between two states of a book, and costs that differ gathered in one line."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple


class Fact(NamedTuple):
    """One difference: what differs, the text before and the text after.

    None as ``before``: it did not exist or was not known; as ``after``: it no longer does or is. Both None:
    it differs and is not shown. ``money``: it concerns buying only, and changes nothing at the scale.
    """

    what: str
    before: str | None
    after: str | None
    money: bool = False


def if_different(what: str, before: str | None, after: str | None) -> Iterator[Fact]:
    """One fact where the two texts differ, else none."""
    if before != after:
        yield Fact(what, before, after)


def cost_facts(
    what: str, costs: Iterable[tuple[str, str | None, str | None]], currencies: tuple[str, str]
) -> Iterator[Fact]:
    """Costs that differ, in one fact each for those that change, appear and go, as ``1.69, 3.38 CAD``.

    ``costs``: name, cost before and cost after (None: not known), in the order in which they are shown.
    ``what``: the label, with ``{}`` for the names of those in the fact. ``currencies``: before and after.
    """
    differing = [each for each in costs if each[1] != each[2] or currencies[0] != currencies[1]]
    for known in ((True, True), (False, True), (True, False)):
        rows = [each for each in differing if (each[1] is not None, each[2] is not None) == known]
        if rows:
            before, after = (
                f"{', '.join(filter(None, side))} {currency}"
                for side, currency in zip(list(zip(*rows, strict=True))[1:], currencies, strict=True)
            )
            label = what.format(", ".join(name for name, _, _ in rows))
            yield Fact(label, before if known[0] else None, after if known[1] else None, money=True)
