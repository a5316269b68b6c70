"""An entry that the house no longer uses: since when, why, and what is taken in its place."""

from bowlbook.entries.amounts import Date
from bowlbook.entries.entry import Part, shown
from bowlbook.entries.words import BlendId, ClassId, ProductId, Sentence, SituationId, TechniqueId, TroubleId

RETIRED_SAYS = "Where it is no longer used: since when, why, and what is taken instead."
"""What the field ``retired`` of every kind says of itself."""


class Retired(Part):
    """Since when an entry is no longer used, and why. Its page stays, so that old cards still lead to it."""

    on: Date = shown("The day, as 2026-10-02.")
    because: Sentence = shown("Why it is no longer used.")


class RetiredProduct(Retired):
    """A product that is no longer on the shelf."""

    instead: ProductId | None = shown("The product to take in its place.", default=None)


class RetiredBlend(Retired):
    """A blend that is no longer mixed."""

    instead: BlendId | None = shown("The blend to take in its place.", default=None)


class RetiredTechnique(Retired):
    """A technique that is no longer used."""

    instead: TechniqueId | None = shown("The technique to use in its place.", default=None)


class RetiredSituation(Retired):
    """A hair situation that the house no longer describes."""

    instead: SituationId | None = shown("The situation to read in its place.", default=None)


class RetiredClass(Retired):
    """A class that is no longer taught."""

    instead: ClassId | None = shown("The class that is taught in its place.", default=None)


class RetiredTrouble(Retired):
    """A trouble whose page is replaced by another."""

    instead: TroubleId | None = shown("The page to read in its place.", default=None)


AnyRetired = (
    RetiredProduct | RetiredBlend | RetiredTechnique | RetiredSituation | RetiredClass | RetiredTrouble
)
