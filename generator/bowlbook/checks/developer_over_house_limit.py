"""A developer stronger than the house puts on a scalp stands in a recipe that goes on the scalp.

Why: strong developer burns skin.
Source: the house's `on_scalp_developer_limit`; 20 volume or less on the scalp is common practice, no
published source.
Wrong: `suits: {placement: [on-scalp]}` and a 30 volume developer.
Right: 20 volume or less, or another placement.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc

KINDS = ("blend", "technique")


def developers_with_places(blend: Blend) -> list[tuple[Loc, str]]:
    """Every developer that a blend allows, with the way to its mention."""
    choice = blend.developer
    also: list[tuple[Loc, str]] = [
        (("developer", "also", index), entry_id) for index, entry_id in enumerate(choice.also)
    ]
    return [(("developer", "product"), choice.product), *also]


def find(book: Book, recipe: Blend | Technique, today: date) -> Iterator[Finding]:
    """Findings at each developer over the limit, in a blend or in a technique's bowls."""
    placements = recipe.suits.placement if isinstance(recipe, Blend) else (recipe.placement,)
    if "on-scalp" not in placements:
        return
    limit = book.house.on_scalp_developer_limit
    if isinstance(recipe, Blend):
        named = developers_with_places(recipe)
    else:
        named = [
            (("bowls", index, "developer"), bowl.developer or book.blends[bowl.blend].developer.product)
            for index, bowl in enumerate(recipe.bowls)
        ]
    for loc, entry_id in named:
        volume = book.developer(entry_id).volume
        if volume > limit:
            message = f"{plain(volume)} volume is over the house's on-scalp limit."
            mend = f"Use {plain(limit)} volume or less, or keep the recipe off the scalp."
            yield recipe.source.objection(loc, message, mend)
