"""What one blend or technique gives to Pick by hair, in plain values: the maker of its page passes it on."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.product import Developer
from bowlbook.figures.candidate import Candidate, candidates_from
from bowlbook.figures.head import bits_of
from bowlbook.figures.toner import toner_of
from bowlbook.figures.use import bowls_in_use, use_of
from bowlbook.pages.bowl_panel import Panel
from bowlbook.wording.amount import plain_number
from bowlbook.wording.developer import with_volume

FirstBowl = tuple[str, list[tuple[str | None, str]]]
"""A batch with its unit; for each pour the product's name (None: the developer) and what the scale shows."""


class Mix(NamedTuple):
    """A developer: its id, its name, the same with its volume, and the volume."""

    id: str
    name: str
    label: str
    volume: Fraction


class ShownBowl(NamedTuple):
    """A bowl of a technique: as in `UsedBowl`, in plain values."""

    reach: int
    own: bool
    developer: Mix
    cautions: tuple[str, ...]


class Shown(NamedTuple):
    """A candidate, and how it is mixed and placed, in plain values: all that Pick by hair says of it.

    ``placements``: a bit set. ``cautions``: of a technique its own only. Else as in `Use`.
    """

    candidate: Candidate
    tones: bool
    placements: int
    developers: tuple[Mix, ...]
    cautions: tuple[str, ...]
    minutes: float | None
    check_every: float | None
    bowls: tuple[ShownBowl, ...]


def shown_from(book: Book, kind: str, entry_id: str) -> list[Shown]:
    """What one blend or technique gives to the candidates of Pick by hair: itself, then its pairs."""
    toner = toner_of(book, kind, entry_id)
    return [_shown(book, each) for each in ([toner] if toner else candidates_from(book, kind, entry_id))]


def _shown(book: Book, candidate: Candidate) -> Shown:
    use = use_of(book, candidate)
    cautions = use.cautions
    if candidate.kind == "technique":
        cautions = book.techniques[candidate.id].cautions
    return Shown(
        candidate,
        use.tones,
        bits_of("placement", use.placements),
        tuple(map(_mix, use.developers)),
        tuple(dict.fromkeys(cautions)),
        None if use.minutes is None else plain_number(use.minutes),
        None if use.check_every is None else plain_number(use.check_every),
        tuple(
            ShownBowl(each.reach, each.own, _mix(each.developer), each.cautions)
            for each in bowls_in_use(book, candidate)
        ),
    )


def _mix(developer: Developer) -> Mix:
    return Mix(developer.id, developer.name, with_volume(developer), developer.volume)


def first_bowl(panels: Sequence[Panel]) -> FirstBowl:
    """A blend's smallest batch, and its pours."""
    first = panels[0]
    pours = [(None if each.role == "developer" else each.name, each.scale_shows) for each in first.lines]
    return first.label, pours
