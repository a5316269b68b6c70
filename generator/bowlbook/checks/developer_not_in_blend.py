"""A technique mixes a bowl with a developer that its blend does not allow.

Why: the blend's page has no figures for it, and nobody has tried it.
Source: the blend's own `developer`.
Wrong: `bowls: [{blend: soft-clay, developer: developer-40, …}]` where the blend names 20 volume only.
Right: a developer of the blend, or add it to the blend's `also` once it has been tried.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Findings at the bowl's developer."""
    for index, bowl in enumerate(technique.bowls):
        choice = book.blends[bowl.blend].developer
        allowed = (choice.product, *choice.also)
        if bowl.developer is not None and bowl.developer not in allowed:
            message = f'"{bowl.developer}" is not a developer of "{bowl.blend}".'
            mend = f"Use one of: {', '.join(allowed)}; or add it to the blend's other developers (also)."
            yield technique.source.objection(("bowls", index, "developer"), message, mend)
