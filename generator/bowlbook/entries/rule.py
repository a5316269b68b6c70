"""Rules: which recipes certain heads exclude, require or prefer, what stops a head, and on whose word.

A rule is plain data: a conjunction of facets, and a conjunction of what a recipe is. Nothing is evaluated.
"""

from typing import Annotated

from bowlbook.entries.amounts import Date, span, whole
from bowlbook.entries.circumstances import Circumstances
from bowlbook.entries.entry import Part, shown
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

    placement: Placements = shown("How it is placed.", default=())
    strength: Annotated[tuple[str, ...], Words(STRENGTHS, "a strength")] = shown(
        "The strength of its strongest lightener: gentle, medium, strong.", default=()
    )
    form: Annotated[tuple[str, ...], Words(FORMS, "a form")] = shown(
        "The form of any lightener in it.", default=()
    )
    pigment: Annotated[tuple[str, ...], Words(PIGMENTS, "a pigment")] = shown(
        "The pigment of any lightener in it.", default=()
    )
    developer: Annotated[Span, span(1, 60, "a developer's volumes")] | None = shown(
        "The volumes of its developer, as 1-20.", default=None
    )


class InAVisit(Part):
    """The most levels of lift in one visit, and the weeks to the next one."""

    levels: Annotated[int, whole(1, 9, "levels of lift")] | None = shown(
        "The most levels of lift in one visit.", default=None
    )
    weeks: Annotated[int, whole(1, 52, "weeks")] | None = shown(
        "The fewest weeks to the next visit.", default=None
    )


class Rule(Part):
    """A rule. Exactly one of exclude, require, prefer, stop, test_first, care and visits."""

    when: Circumstances = shown("The heads: all of these facets together.")
    exclude: Traits | None = shown("Recipes that are never the answer then.", default=None)
    require: Traits | None = shown("What a recipe must be then.", default=None)
    prefer: Traits | None = shown("Recipes that come first then.", default=None)
    stop: Sentence | None = shown("Not today: what to do instead.", default=None)
    test_first: Sentence | None = shown("What to ask or test before anything.", default=None)
    care: Sentence | None = shown("What to take care of.", default=None)
    visits: InAVisit | None = shown("What one visit gives at most then.", default=None)
    toning: YesNo = shown(
        "Of a stop or a test: yes where a wish without any lift may still be toned.", default=False
    )
    because: Sentence = shown("Why.")
    instead: BlendId | None = shown("The blend to take instead.", default=None)
    standing: Annotated[str, one_of(STANDINGS, "a standing")] = shown(
        "On whose word: published source, common practice, this house."
    )
    source: Sentence | None = shown("The published source.", default=None)
    jurisdiction: Name | None = shown("Where a published source holds.", default=None)
    since: Date | None = shown("The day from which the cited text holds.", default=None)

    def __hash__(self) -> int:
        # Rules are looked up for every recipe, and few say the same: hashing every field takes far longer.
        return hash(self.because)

    @property
    def effect(self) -> str:
        """Which of `EFFECTS` it says; the first one where it says several."""
        return next((name for name in EFFECTS if getattr(self, name) is not None), "")
