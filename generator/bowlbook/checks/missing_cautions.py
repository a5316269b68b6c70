"""A recipe whose use needs a caution of its own has none.

It needs one on the scalp, on regrowth, round the hairline, on hair already lightened, with a developer of
30 volume or more, and for four or more levels of lift.

Why: these are where people get hurt, and where the usual cautions are not enough.
Source: common practice, no published source.
Wrong: a blend with 30 volume and no `cautions`.
Right: `cautions: ["30 volume: check every five minutes, and never on the scalp."]`.
"""

from collections.abc import Iterator
from datetime import date
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import Facets
from bowlbook.entries.technique import Technique
from bowlbook.reading.finding import Finding

KINDS = ("blend", "technique")


def find(book: Book, recipe: Blend | Technique, today: date) -> Iterator[Finding]:
    """Findings at the recipe's name."""
    if recipe.cautions:
        return
    if isinstance(recipe, Blend):
        ids = [recipe.developer.product, *recipe.developer.also]
    else:
        ids = [bowl.developer or book.blends[bowl.blend].developer.product for bowl in recipe.bowls]
    why = needs_caution(recipe.suits, max(book.developer(entry_id).volume for entry_id in ids))
    if isinstance(recipe, Technique) and recipe.placement == "on-scalp":
        why = "it goes on the scalp"
    if why:
        yield recipe.source.objection(("name",), *_words(why))


def needs_caution(suits: Facets, strongest: Fraction) -> str | None:
    """Why a recipe needs a caution of its own; None where the usual ones do."""
    if "on-scalp" in suits.placement:
        return "it goes on the scalp"
    if "scalp regrowth" in suits.area:
        return "it goes next to the scalp"
    if "hairline" in suits.area:
        return "it goes round the hairline"
    if "previously lightened" in suits.history:
        return "it goes on hair that was lightened before"
    if strongest >= 30:
        return "its developer is 30 volume or more"
    if suits.lift is not None and suits.lift.high >= 4:
        return "it lifts four or more levels"
    return None


def _words(why: str) -> tuple[str, str]:
    return f"This needs a caution of its own: {why}.", "Add cautions, one sentence each."
