"""Figure 12: one verdict for a head and a wish, before any answer: what stops it, what is tested or asked
first, over how many visits it goes, and only then what may be matched.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.figures.candidate import Candidate, candidates_of, lightening
from bowlbook.figures.head import (
    DEEPER,
    LIFT,
    LIGHTER,
    NATURAL,
    NO_LIFT,
    NOW,
    PLACEMENT,
    TARGET,
    WISH,
    Head,
    asks_for_no_lift,
    assumed,
    completed,
    head_with,
    lowest,
)
from bowlbook.figures.proportion import developer_share
from bowlbook.figures.shortlist import Index, Shortlist, index_of, shortlist
from bowlbook.figures.stop import CARE, STOP, TEST, Stop, in_force, stops_of, volume_stops, volumes_of
from bowlbook.figures.toner import toners_of
from bowlbook.figures.visits import InOneVisit, Visit, house_visit, in_one_visit, least_lift, visits_for

GO, WITH_CARE, TONE_ONLY = "go", "with care", "tone only"
TEST_FIRST, MORE_VISITS, NOT_TODAY = "test first", "more than one visit", "not today"
VERDICTS = (GO, WITH_CARE, TONE_ONLY, MORE_VISITS, TEST_FIRST, NOT_TODAY)
"""From the least strict to the strictest: before the first of several visits comes the test."""


class Practice(NamedTuple):
    """A book made ready to be asked about many heads: its stops, and its lightening and toning recipes.

    It holds no book: pages digest it as an input (`bowlbook.pages.maker`). ``visit``: see `house_visit`;
    ``volumes``: those of the book's developers, as bits.
    """

    visit: tuple[int, int]
    stops: tuple[Stop, ...]
    lightening: Index
    toning: Index
    volumes: int = 0


def practice_of(book: Book) -> Practice:
    """The stops and recipes of a book; time and room grow with their number."""
    shares = [developer_share(each) for each in lightening(book)]
    return practice_with(book, candidates_of(book), toners_of(book), shares)


def practice_with(
    book: Book, to_lighten: Sequence[Candidate], to_tone: Sequence[Candidate], shares: Sequence[Fraction]
) -> Practice:
    """`practice_of` a book whose `candidates_of`, `toners_of` and developer shares are known.

    ``shares``: as for `volume_stops`. Looks at the house and the products alone.
    """
    house = book.house
    stops = (*stops_of(house), *volume_stops(house, shares))
    return Practice(house_visit(house), stops, index_of(to_lighten), index_of(to_tone), volumes_of(book))


class Consultation(NamedTuple):
    """What is said to a head and a wish.

    ``said``: the head with its levels completed as far as they go together. ``lightens``: whether any lift is
    asked for. ``stops``: what holds, strictest first. ``visits``: the plan, where it takes more than one and
    the level that it starts from is known; ``too_much``: whether it takes more than one.
    ``lightening``, ``toning``: the heads that are matched with recipes that lighten and that tone; None where
    none of these may be an answer. ``limit``: what one visit gives.
    """

    verdict: str
    said: Head
    lightens: bool
    stops: tuple[Stop, ...]
    visits: tuple[Visit, ...]
    too_much: bool
    limit: InOneVisit
    lightening: Head | None
    toning: Head | None


def consult(practice: Practice, head: Head, *, one_head: bool = True) -> Consultation:
    """The verdict on a head and a wish. ``one_head`` as in `assumed`.

    Every stop, test and caution that holds is given; the strictest decides. Nothing of it is kept.
    """
    lightens = not asks_for_no_lift(head)
    whole = completed(head) if lightens else head
    judged = assumed(whole or head, one_head=one_head)
    found = in_force(practice.stops, judged, lightens=lightens)
    if whole is None:
        found.append(Stop((), STOP, *PAST_THE_LIGHTEST))
    limit = in_one_visit(practice.visit, practice.stops, judged)
    visits: tuple[Visit, ...] = ()
    too_much = False
    if whole is not None and lightens:
        # By the least that the wish may mean: a span of levels alone makes no second visit.
        too_much = least_lift(judged) > limit.levels
        visits = visits_for(practice.visit, practice.stops, judged)
    today = _today(whole or head, visits)
    verdict = _strictest(found, lightens, too_much)
    stopped = verdict == NOT_TODAY
    unplanned = too_much and not visits  # the level is not known: no recipe may answer for the whole lift
    return Consultation(
        verdict,
        whole or head,
        lightens,
        tuple(sorted(found, key=lambda each: (STOP, TEST, CARE).index(each.effect))),
        visits,
        too_much,
        limit,
        today if lightens and not stopped and not unplanned else None,
        None if stopped else _to_tone(today, judged, lightens),
    )


def _strictest(found: Sequence[Stop], lightens: bool, too_much: bool) -> str:
    effects = {each.effect for each in found}
    if STOP in effects:
        return NOT_TODAY
    if TEST in effects:
        return TEST_FIRST
    if too_much:
        return MORE_VISITS
    if not lightens:
        return TONE_ONLY
    return WITH_CARE if CARE in effects else GO


def _today(head: Head, visits: tuple[Visit, ...]) -> Head:
    """The head with the wish of the first visit."""
    if not visits:
        return head
    found = list(head)
    found[TARGET], found[LIFT] = 1 << visits[0].to - 1, 1 << visits[0].lift - 1
    return tuple(found)


def _to_tone(today: Head, judged: Head, lifted: bool) -> Head | None:
    """The head as a toner meets it: at the level that it was lifted to, or that it shows, and with what is
    asked for: a lift, none, or depth. None where no level is known."""
    found = list(today)
    found[TARGET] = today[TARGET] if lifted else judged[NATURAL]
    deeper = judged[TARGET].bit_length() < lowest(judged[NATURAL])
    found[WISH] = LIGHTER if lifted else DEEPER if judged[TARGET] and deeper else NO_LIFT
    # A toner meets the hair as it is by then: where it started, and how it was placed, no longer counts.
    found[NATURAL] = found[NOW] = found[LIFT] = found[PLACEMENT] = 0
    return tuple(found) if found[TARGET] else None


PAST_THE_LIGHTEST = (
    "The levels do not go together: level 10 is the lightest. Ask for fewer levels of lift.",
    "Hair is lifted from the level it shows to a lighter one, level 10 at most.",
    "common practice",
)


def lightening_answers(practice: Practice, head: Head, *, one_head: bool = True) -> Shortlist:
    """The lightening recipes for the head that a consultation gives for them."""
    found = shortlist(practice.lightening, head, one_head=one_head)
    assert found is not None  # a consultation gives only heads that go together
    return found


def toning_answers(practice: Practice, head: Head) -> Shortlist:
    """The toners for the head that a consultation gives for them."""
    found = shortlist(practice.toning, head)
    assert found is not None
    return found


def toners_at(practice: Practice, level: int, tone: int) -> list[Candidate]:
    """The toning blends for hair lifted to a level and a tone that is wished for, as bits; best first."""
    found = toning_answers(practice, head_with(target_level=1 << level - 1, tone=tone, wish=LIGHTER))
    return [each.candidate for each in found.suiting("blend", 3).verdicts]
