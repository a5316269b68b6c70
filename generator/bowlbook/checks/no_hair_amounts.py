"""The house has not measured how much more or less a head takes, and techniques say what they use.

Why: without these factors no service, no cost of it and no kit of a class is worked out.
Source: the house's own `hair_amounts`; how much a head takes is common practice, no published source.
Wrong: `sections` and `mix_per_section` in a technique, and no `hair_amounts` in house.yml.
Right: `hair_amounts: {length: {short: 0.7, medium: 1}, density: {medium: 1, thick: 1.3}}`, as measured in
the house.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.reading.finding import Finding


def find(book: Book, today: date) -> Iterator[Finding]:
    """One warning at the house, where any technique says how much it uses."""
    if book.house.hair_amounts is not None and book.house.hair_amounts.heads:
        return
    for technique in book.techniques.values():
        if any(bowl.sections and bowl.mix_per_section for bowl in technique.bowls):
            yield book.house.source.objection(
                ("hair_amounts",),
                f"The house has not measured hair amounts: no service is worked out, as of {technique.name}.",
                "Add hair_amounts: a factor for each length and each density, 1 for the head that techniques "
                "are measured on.",
                severity="warning",
            )
            return
