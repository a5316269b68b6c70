"""What a rule may be about beside the hair: the person, what is worn, weeks, and a wish for volume or heat.

These are asked and never stored: no recipe, situation or address holds them, only the `when` of a rule does.
"""

from typing import Annotated

from bowlbook.entries.amounts import span
from bowlbook.entries.entry import said
from bowlbook.entries.facets import FACETS, Facets, Tuple
from bowlbook.entries.words import Words
from bowlbook.reading.amount import Span

WORN = ("extensions",)
PERSONS = (
    "under 16",
    "pregnant or nursing",
    "sore scalp",
    "reaction to colour",
    "reaction to lightener",
    "medicine or illness",
)
MOST_WEEKS = 26
"""The longest time that has a value of its own: 26 weeks mean half a year and more."""
HEAT = ("yes",)

CIRCUMSTANCES = (*FACETS, "wearing", "person", "weeks", "volume", "heat")
"""Everything that the `when` of a rule may name."""


class Circumstances(Facets):
    """The heads, wishes and persons that a rule is about: all that is named together."""

    wearing: Annotated[Tuple, Words(WORN, "something worn in the hair")] = said(
        "What is worn in the hair: extensions.", public=True, default=()
    )
    person: Annotated[Tuple, Words(PERSONS, "something to know of a person")] = said(
        "Under 16, pregnant or nursing, sore scalp, reaction to colour, reaction to lightener, "
        "medicine or illness.",
        public=True,
        default=(),
    )
    weeks: Annotated[Span, span(0, MOST_WEEKS, "weeks")] | None = said(
        "Weeks since the last of what the history names; 0 also where nobody knows, 26 for half a year and "
        "more.",
        public=True,
        default=None,
    )
    volume: Annotated[Span, span(1, 100, "a developer's volumes")] | None = said(
        "The volume that is wished for, as 21-100.", public=True, default=None
    )
    heat: Annotated[Tuple, Words(HEAT, "a wish for heat")] = said(
        "yes: heat is wished for.", public=True, default=()
    )

    @property
    def of_hair_alone(self) -> bool:
        """Whether nothing is named but what a recipe may name too."""
        return not (self.wearing or self.person or self.weeks or self.volume or self.heat)
