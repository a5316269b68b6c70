"""A house rule does not say exactly one thing, or claims a source that it does not name.

Why: a rule that excludes and prefers at once is two rules; a source that nobody can look up is none.
Source: none needed.
Wrong: a rule with both `exclude` and `prefer`; `standing: published source` without `source`.
Right: one of `exclude`, `require`, `prefer`; `standing: common practice`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.house import House
from bowlbook.reading.finding import Finding

KINDS = ("house",)


def find(book: Book, house: House, today: date) -> Iterator[Finding]:
    """Findings at the rule."""
    for index, rule in enumerate(house.rules):
        said = [word for word in ("exclude", "require", "prefer") if getattr(rule, word) is not None]
        if len(said) != 1:
            yield house.source.finding(
                ("rules", index),
                "rule-shape",
                f"This rule says {' and '.join(said)}." if said else "This rule says nothing.",
                "Write exactly one of exclude, require and prefer.",
            )
        if (rule.standing == "published source") != (rule.source is not None):
            yield house.source.finding(
                ("rules", index, "standing"),
                "rule-shape",
                "A published source is named under source, and only then.",
                "Add source with title, number and date; or write: standing: common practice.",
            )
