"""An entry that the house no longer uses: since when, why, and what is taken in its place."""

from bowlbook.entries.amounts import Date
from bowlbook.entries.entry import Part, said
from bowlbook.entries.words import BlendId, ClassId, ProductId, Sentence, SituationId, TechniqueId, TroubleId

RETIRED_SAYS = "Where it is no longer used: since when, why, and what is taken instead."
"""What the field ``retired`` of every kind says of itself."""


class Retired(Part):
    """Since when an entry is no longer used, and why. Its page stays, so that old cards still lead to it."""

    on: Date = said("The day, as 2026-10-02.", public=True)
    because: Sentence = said("Why it is no longer used.", public=True)


class RetiredProduct(Retired):
    """A product that is no longer on the shelf."""

    instead: ProductId | None = said("The product to take in its place.", public=True, default=None)


class RetiredBlend(Retired):
    """A blend that is no longer mixed."""

    instead: BlendId | None = said("The blend to take in its place.", public=True, default=None)


class RetiredTechnique(Retired):
    """A technique that is no longer used."""

    instead: TechniqueId | None = said("The technique to use in its place.", public=True, default=None)


class RetiredSituation(Retired):
    """A hair situation that the house no longer describes."""

    instead: SituationId | None = said("The situation to read in its place.", public=True, default=None)


class RetiredClass(Retired):
    """A class that is no longer taught."""

    instead: ClassId | None = said("The class that is taught in its place.", public=True, default=None)


class RetiredTrouble(Retired):
    """A trouble whose page is replaced by another."""

    instead: TroubleId | None = said("The page to read in its place.", public=True, default=None)


AnyRetired = (
    RetiredProduct | RetiredBlend | RetiredTechnique | RetiredSituation | RetiredClass | RetiredTrouble
)
