"""A recipe refuses every head that it says it suits, or suits levels that no hair has together.

Why: such a recipe is never the answer, and whoever reads the one half believes the opposite of the other.
Source: none needed; the two halves stand in the same file.
Wrong: `suits: {texture: [coarse]}` and `not_for: [{when: {texture: [coarse]}, …}]`; `suits: {natural_level:
8-10, target_level: 5}`.
Right: refuse a corner of what it suits, such as `{texture: [coarse], natural_level: 1-4}`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import LEVELS, LIFTS, Facets, within
from bowlbook.entries.technique import Technique, TechniqueNotFor
from bowlbook.reading.finding import Finding

KINDS = ("blend", "technique")


def find(book: Book, recipe: Blend | Technique, today: date) -> Iterator[Finding]:
    """Findings at the refusal's facets, and at those of what it suits."""
    if not _can_be(recipe.suits):
        message = "No hair has these levels together: natural level and lift add up to the target level."
        yield recipe.source.objection(("suits",), message, "Write levels that can be reached.")
    refusals: tuple[NotFor | TechniqueNotFor, ...] = recipe.not_for
    for index, refused in enumerate(refusals):
        if within(recipe.suits, refused.when):
            message = "This refuses every head that the recipe suits."
            mend = "Narrow this refusal, or what the recipe suits."
            yield recipe.source.objection(("not_for", index, "when"), message, mend)


def _can_be(hair: Facets) -> bool:
    """Whether any natural level, lift and target level of these go together."""
    level, lift, target = hair.natural_level, hair.lift, hair.target_level
    if level is None or (lift is None and target is None):
        return True
    least, most = (0, LIFTS.high) if lift is None else (lift.low, lift.high)  # a tone alone lifts nothing
    targets = target or LEVELS
    return any(
        start + more in targets
        for start in range(level.low, level.high + 1)
        for more in range(least, most + 1)
    )
