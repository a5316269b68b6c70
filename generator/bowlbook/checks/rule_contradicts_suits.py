"""A house rule excludes heads that a recipe says in so many words that it suits.

Why: the recipe's own page and the answer for the head say opposite things.
Source: none needed; the rule and the recipe stand in one book.
Wrong: a rule that requires foil for coarse hair of level 1 to 4, and an open-air blend with
`suits: {texture: [coarse], natural_level: 3-8}`.
Right: narrow what the blend suits, or refuse that corner in its own `not_for`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import meet, within
from bowlbook.entries.technique import Technique
from bowlbook.figures.lightening_bowl import ruled_out
from bowlbook.reading.finding import Finding

KINDS = ("blend", "technique")


def find(book: Book, recipe: Blend | Technique, today: date) -> Iterator[Finding]:
    """Warnings at the heads of each rule that the recipe contradicts."""
    kind = "blend" if isinstance(recipe, Blend) else "technique"
    for index, heads in ruled_out(book, recipe, book.house.rules):
        said = all(getattr(recipe.suits, name) for name in heads.named if name != "placement")
        met = meet(recipe.suits, heads) if said else None
        if met is None or any(within(met, refused.when) for refused in recipe.not_for):
            continue
        message = f'The {kind} "{recipe.id}" says that it suits heads which this rule keeps from it.'
        mend = "Narrow what it suits, name that corner under not for, or change the rule."
        yield book.house.source.objection(("rules", index, "when"), message, mend, severity="warning")
