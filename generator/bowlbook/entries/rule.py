"""Rules: which recipes certain heads exclude, require or prefer, what stops a head, and on whose word.

A rule is plain data: a conjunction of facets, and a conjunction of what a recipe is. Nothing is evaluated.
"""

from typing import Annotated

from bowlbook.entries.amounts import Date, span, whole
from bowlbook.entries.circumstances import Circumstances
from bowlbook.entries.entry import Part, said
from bowlbook.entries.facets import Placements
from bowlbook.entries.product import FORMS, PIGMENTS, STRENGTHS
from bowlbook.entries.words import BlendId, Name, Sentence, Words, YesNo, one_of
from bowlbook.reading.amount import Span

STANDINGS = ("published source", "common practice", "this house", "usual")
"""``usual``: a stop or test that comes with the program (`usual.py`); no house writes it or removes it."""
EFFECTS = ("exclude", "require", "prefer", "stop", "test_first", "care", "visits")
"""What a rule says: exactly one of these."""


class Traits(Part):
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


class InAVisit(Part):
    """The most levels of lift in one visit, and the weeks to the next one."""

    levels: Annotated[int, whole(1, 9, "levels of lift")] | None = said(
        "The most levels of lift in one visit.", public=True, default=None
    )
    weeks: Annotated[int, whole(1, 52, "weeks")] | None = said(
        "The fewest weeks to the next visit.", public=True, default=None
    )


class Rule(Part):
    """A rule. Exactly one of exclude, require, prefer, stop, test_first, care and visits."""

    when: Circumstances = said("The heads: all of these facets together.", public=True)
    exclude: Traits | None = said("Recipes that are never the answer then.", public=True, default=None)
    require: Traits | None = said("What a recipe must be then.", public=True, default=None)
    prefer: Traits | None = said("Recipes that come first then.", public=True, default=None)
    stop: Sentence | None = said("Not today: what to do instead.", public=True, default=None)
    test_first: Sentence | None = said("What to ask or test before anything.", public=True, default=None)
    care: Sentence | None = said("What to take care of.", public=True, default=None)
    visits: InAVisit | None = said("What one visit gives at most then.", public=True, default=None)
    toning: YesNo = said(
        "Of a stop or a test: yes where a wish without any lift may still be toned.",
        public=True,
        default=False,
    )
    because: Sentence = said("Why.", public=True)
    instead: BlendId | None = said("The blend to take instead.", public=True, default=None)
    standing: Annotated[str, one_of(STANDINGS, "a standing")] = said(
        "On whose word: published source, common practice, this house.", public=True
    )
    source: Sentence | None = said("The published source.", public=True, default=None)
    jurisdiction: Name | None = said("Where a published source holds.", public=True, default=None)
    since: Date | None = said("The day from which the cited text holds.", public=True, default=None)

    def __hash__(self) -> int:
        # Rules are looked up for every recipe, and few say the same: hashing every field takes far longer.
        return hash(self.because)

    @property
    def effect(self) -> str:
        """Which of `EFFECTS` it says; the first one where it says several."""
        return next((name for name in EFFECTS if getattr(self, name) is not None), "")
