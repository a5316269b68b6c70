"""A trouble that harms the person does not say when a doctor is needed.

Why: whoever reads it is busy with somebody in pain, and must not have to judge that alone.
Source: common practice, no published source.
Wrong: `at_risk: person` without `doctor`.
Right: `doctor: [Blisters, a white patch or pain after rinsing; with the product's label in hand.]`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.trouble import Trouble
from bowlbook.reading.finding import Finding

KINDS = ("trouble",)


def find(book: Book, trouble: Trouble, today: date) -> Iterator[Finding]:
    """A finding at what is at risk."""
    if trouble.at_risk == "person" and not trouble.doctor:
        message = "This trouble harms the person, and does not say when a doctor is needed."
        mend = "Add doctor: when to send to a doctor, and when to call the emergency number."
        yield trouble.source.objection(("at_risk",), message, mend)
