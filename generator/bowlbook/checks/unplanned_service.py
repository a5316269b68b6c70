"""A technique says how much it uses, and still no service can be worked out for some hair.

Why: its page and its sheet have no figures for that hair, and a class that shows it has no kit.
Source: figure 9 of the design; the blend's `fresh_for` is its maker's or the house's own.
Wrong: `minutes_per_section: 50 minutes` and a blend that stays fresh for 45; `sections` without
`mix_per_section`; more weigh-outs for one bowl than anybody would do.
Right: smaller sections; both amounts; larger batches.
"""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.figures.applying import Applying, HairFactors, applying
from bowlbook.figures.bowl_plan import BowlPlanner, CannotPlan, service_unit
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Warnings at the bowl, for the hair that takes least and the hair that takes most; each reason once."""
    amounts = book.house.hair_amounts
    factors = [HairFactors(*each) for each in amounts.extremes] if amounts else []
    if not factors or not any(bowl.sections or bowl.mix_per_section for bowl in technique.bowls):
        return
    try:
        unit = service_unit(book, [book.blends[bowl.blend] for bowl in technique.bowls])
    except CannotPlan:  # missing-scale-step says so
        return
    applied = [(each, applying(technique, each.density, technique.hands)) for each in factors]
    for index, bowl in enumerate(technique.bowls):
        planner = BowlPlanner(book, technique, bowl, unit)
        found = dict.fromkeys(
            problem
            for each, bowls in applied
            for problem in _problems(book, planner, index, each.of(bowl), bowls[index])
        )
        for loc, message, mend in found:
            yield technique.source.objection(loc, message, mend, severity="warning")


def _problems(
    book: Book, planner: BowlPlanner, index: int, factor: Fraction, applied: Applying
) -> Iterator[tuple[Loc, str, str]]:
    """Where, what and how to mend it, of one bowl for a hair amount, whose ``factor`` it is."""
    try:
        if not book.house.any_batch:  # a size of the house or blend that reads zero is found by zero-reading
            planner.portions(factor, applied)
            return
        planned = planner.plan(factor, applied)
    except CannotPlan as refusal:
        loc: Loc = ("bowls", index, refusal.key) if refusal.key else ("bowls", index)
        yield loc, refusal.reason, refusal.mend
        return
    for fresh in planned.unweighed:
        assert fresh.cannot is not None
        name = fresh.cannot.product.name
        yield (
            ("bowls", index, "mix_per_section"),
            f"For the hair that takes least {name} would read zero on the house's scale.",
            "Weigh on a finer scale, or mix more for a section.",
        )
