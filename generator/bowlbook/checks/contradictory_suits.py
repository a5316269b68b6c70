"""A recipe refuses every head that it says it suits.

Why: such a recipe is never the answer, and whoever reads the one half believes the opposite of the other.
Source: none needed; the two halves stand in the same file.
Wrong: `suits: {texture: [coarse]}` and `not_for: [{when: {texture: [coarse]}, …}]`.
Right: refuse a corner of what it suits, such as `{texture: [coarse], natural_level: 1-4}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import within
from bowlbook.entries.technique import Technique, TechniqueNotFor
from bowlbook.reading.finding import Finding

KINDS = ("blend", "technique")


def find(book: Book, recipe: Blend | Technique, today: date) -> Iterator[Finding]:
    """Findings at the refusal's facets."""
    refusals: tuple[NotFor | TechniqueNotFor, ...] = recipe.not_for
    for index, refused in enumerate(refusals):
        if within(recipe.suits, refused.when):
            yield recipe.source.finding(
                ("not_for", index, "when"),
                "contradictory-suits",
                "This refuses every head that the recipe suits.",
                "Narrow this refusal, or what the recipe suits.",
            )
