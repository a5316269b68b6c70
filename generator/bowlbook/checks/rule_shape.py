"""A house rule does not say exactly one thing, or claims a source that it does not name.

Why: a rule that excludes and prefers at once is two rules; a source that nobody can look up is none. A stop
on a published word says where that holds and since when: people are turned away on it. The usual stops come
with the program, so that no house writes one.
Source: none needed.
Wrong: a rule with both `exclude` and `prefer`; `standing: published source` without `source`; a stop of that
standing without `jurisdiction` and `since`; `standing: usual`.
Right: one of `exclude`, `require`, `prefer`, `stop`, `test_first`, `care`, `visits`; `standing: common
practice`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.house import House
from bowlbook.entries.rule import EFFECTS, Rule
from bowlbook.figures.stop import EFFECTS as STOPS
from bowlbook.reading.finding import Finding

KINDS = ("house",)


def find(book: Book, house: House, today: date) -> Iterator[Finding]:
    """Findings at the rule."""
    for index, rule in enumerate(house.rules):
        said = [word for word in EFFECTS if getattr(rule, word) is not None]
        if len(said) != 1:
            message = f"This rule says {' and '.join(said)}." if said else "This rule says nothing."
            mend = f"Write exactly one of {', '.join(EFFECTS[:-1])} and {EFFECTS[-1]}."
            yield house.source.objection(("rules", index), message, mend)
        fault = _fault_of_standing(rule)
        if fault is not None:
            yield house.source.objection(("rules", index, "standing"), *fault)


def _fault_of_standing(rule: Rule) -> tuple[str, str] | None:
    """What is wrong with the word that a rule stands on, and how to mend it; None where nothing is."""
    if rule.standing == "usual":
        return (
            "The usual stops and tests come with the program; a house writes its own.",
            "Write: standing: this house; or: standing: common practice.",
        )
    published = rule.standing == "published source"
    if published != (rule.source is not None):
        return (
            "A published source is named under source, and only then.",
            "Add source with title, number and date; or write: standing: common practice.",
        )
    if published and rule.effect in STOPS and (rule.jurisdiction is None or rule.since is None):
        return (
            "A stop on a published word says where that holds and since when.",
            "Add jurisdiction and since; or write: standing: common practice.",
        )
    return None
