"""What stands over answers that hold on a condition only, so that nobody takes them for more."""

from bowlbook.figures.head import PERSON
from bowlbook.figures.verdict import TEST_FIRST, Consultation

ONCE_TESTED = "Only once the test is passed"
ONCE_AGREED = "Only once whoever must be asked agrees, and the test is passed"
FIRST_VISIT = "For the first visit, to level {}"
SAY_THE_LEVEL = "Say its level first: what the first visit can reach starts from there."
SURE = "To be sure: {}? Then {}."

HEADING_WORDS = {
    "once_tested": ONCE_TESTED,
    "once_agreed": ONCE_AGREED,
    "first_visit": FIRST_VISIT,
    "say_the_level": SAY_THE_LEVEL,
    "sure": SURE,
}
"""The same for the phone."""


def condition_of(found: Consultation) -> str | None:
    """What must have happened before anything is mixed; None where nothing must."""
    if found.verdict != TEST_FIRST:
        return None
    return ONCE_AGREED if found.said[PERSON] else ONCE_TESTED


def visit_heading(found: Consultation) -> str | None:
    """Which visit the answers are for; None where there is one visit, or its level is not known."""
    return FIRST_VISIT.format(found.visits[0].to) if found.visits else None


def unplanned(found: Consultation) -> bool:
    """Whether one visit is not enough and nobody knows the level a plan starts from: no recipe is for it."""
    return found.too_much and not found.visits and found.lightening is not None
