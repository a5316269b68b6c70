"""House rules: which recipes certain heads exclude, require or prefer, why, and on whose word.

A rule is plain data: a conjunction of facets, and a conjunction of what a recipe is. Nothing is evaluated.
"""

from typing import Annotated

from bowlbook.entries.amounts import span
from bowlbook.entries.entry import part, said
from bowlbook.entries.facets import Facets, Placements
from bowlbook.entries.product import FORMS, PIGMENTS, STRENGTHS
from bowlbook.entries.words import BlendId, Sentence, Words, one_of
from bowlbook.reading.amount import Span

STANDINGS = ("published source", "common practice", "this house")


@part
class Traits:
    """What a recipe is: all of these together. A trait left out means that any will do."""

    placement: Placements = said("How it is placed.", public=True, default=())
    strength: Annotated[tuple[str, ...], Words(STRENGTHS, "a strength")] = said(
        "The strength of its strongest lightener: gentle, medium, strong.", public=True, default=()
    )
    form: Annotated[tuple[str, ...], Words(FORMS, "a form")] = said(
        "The form of any lightener in it.", public=True, default=()
    )
    pigment: Annotated[tuple[str, ...], Words(PIGMENTS, "a pigment")] = said(
        "The pigment of any lightener in it.", public=True, default=()
    )
    developer: Annotated[Span, span(1, 60, "a developer's volumes")] | None = said(
        "The volumes of its developer, as 1-20.", public=True, default=None
    )


@part
class Rule:
    """A house rule. Exactly one of exclude, require and prefer."""

    when: Facets = said("The heads: all of these facets together.", public=True)
    exclude: Traits | None = said("Recipes that are never the answer then.", public=True, default=None)
    require: Traits | None = said("What a recipe must be then.", public=True, default=None)
    prefer: Traits | None = said("Recipes that come first then.", public=True, default=None)
    because: Sentence = said("Why.", public=True)
    instead: BlendId | None = said("The blend to take instead.", public=True, default=None)
    standing: Annotated[str, one_of(STANDINGS, "a standing")] = said(
        "On whose word: published source, common practice, this house.", public=True
    )
    source: Sentence | None = said("The published source.", public=True, default=None)
