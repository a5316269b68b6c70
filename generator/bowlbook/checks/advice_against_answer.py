"""A situation takes a blend or a technique that the book's own rules, refusals and stops keep from that head.

Why: the page says "take" at its top and "not" at its foot; or it says "take" to a head that is stopped.
Source: none needed; the head, the recipes' own refusals, the house's rules and the usual stops are known.
Wrong: `hair: {curl: [coily]}` and `take: [{blend: white-foil, …}]`, where a rule keeps it off coils.
Right: another blend; or say less in `hair`, where the rule does not fit.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.situation import Advised, Situation
from bowlbook.figures.candidate import candidate_of
from bowlbook.figures.head import Head, asks_for_no_lift, assumed, completed, head_of
from bowlbook.figures.match import verdict_on
from bowlbook.figures.ruling import NOT_MEANT
from bowlbook.figures.stop import STOP, in_force, stops_of
from bowlbook.reading.finding import Finding

KINDS = ("situation",)


def find(book: Book, situation: Situation, today: date) -> Iterator[Finding]:
    """Findings at what is taken, or at the head where it is stopped or makes no sense."""
    said = head_of(situation.hair)
    lightens = not asks_for_no_lift(said)
    head = completed(said) if lightens else said
    if head is None:
        message = "Natural level, lift and target level do not go together."
        mend = "Lift is the target level less the natural level."
        yield situation.source.objection(("hair",), message, mend)
        return
    judged = assumed(head, one_head=False)
    stops = in_force(stops_of(book.house), judged, lightens=lightens)
    for each in stops:
        if each.effect == STOP:
            message = f"This head is stopped: {each.do}"
            mend = "Say in the advice what to do instead of taking something, or say less in hair."
            yield situation.source.objection(("hair",), message, mend)
            return
    for index, taken in enumerate(situation.take):
        yield from _against(book, situation, index, taken, judged, lightens)


def _against(
    book: Book, situation: Situation, index: int, taken: Advised, head: Head, lightens: bool
) -> Iterator[Finding]:
    """What speaks against one thing that is taken; of a technique what is not its blend's alone."""
    said: set[str] = set()
    for kind, entry_id in (("blend", taken.blend), ("technique", taken.technique)):
        recipe = None if entry_id is None else candidate_of(book, kind, entry_id)
        if recipe is None:
            continue  # what only tones is no answer to lift
        # What keeps a technique from every head is its own fault, and too-long-on-hair reports it there.
        refused = [
            each.because
            for each in verdict_on(recipe, head).excluded
            if any(each.when) and each.standing != NOT_MEANT and each.because not in said
        ]
        if not lightens and kind == "blend":
            refused.append("No lift is asked for, and it lightens.")
        said |= set(refused)
        if refused:
            message = f'"{entry_id}" is kept from this head: {refused[0]}'
            mend = "Take another, or say less of the head."
            yield situation.source.objection(("take", index, kind), message, mend)
