"""Troubles: what can go wrong at the chair, how it shows, and what to do now, never, and next time."""

from typing import Annotated

from bowlbook.entries.entry import ALSO_CALLED, Entry, Part, said, shown
from bowlbook.entries.facets import Placements
from bowlbook.entries.retired import RETIRED_SAYS, RetiredTrouble
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import BlendId, FormerId, Markdown, Name, ProductId, Sentence, TechniqueId, one_of
from bowlbook.reading.refusal import Refusal

AT_RISK = ("person", "hair", "bowl")
"""Who or what a trouble harms, the gravest first."""


class ComesFrom(Part):
    """Where a trouble comes from: all that is named here, each by itself."""

    placement: Placements = shown("Placements: every technique that places lightener so.", default=())
    techniques: tuple[TechniqueId, ...] = shown("Techniques.", default=())
    blends: tuple[BlendId, ...] = shown("Blends, and with them the techniques that use them.", default=())
    products: tuple[ProductId, ...] = shown(
        "Products, and with them the blends and techniques that use them.", default=()
    )


class Trouble(Entry):
    """A trouble, ``recipes/troubles/ID.yml``."""

    name: Name = shown("What somebody would call across the floor.")
    summary: Sentence | None = shown("The first thing to do, in a sentence.", default=None)
    other_names: tuple[Name, ...] = shown(ALSO_CALLED, default=())
    at_risk: Annotated[str, one_of(AT_RISK, "one of person, hair and bowl")] = shown(
        "Who or what it harms first: person, hair or bowl."
    )
    signs: tuple[Sentence, ...] = shown("How it shows: what is seen, felt or smelt.")
    now: tuple[Sentence, ...] = shown("What to do now, in order.")
    never: tuple[Sentence, ...] = shown("What never to do.", default=())
    doctor: tuple[Sentence, ...] = shown(
        "When to send to a doctor, and when to call the emergency number.", default=()
    )
    next_visit: tuple[Sentence, ...] = shown("What to do on the next visit.", default=())
    comes_from: ComesFrom | None = shown(
        "Where it comes from. Left out, it can happen with anything.", default=None
    )
    advice_from: Sentence = shown("Who publishes this advice; else: common practice, no published source.")
    notes: Markdown | None = shown("Why, in Markdown.", default=None)
    formerly: tuple[FormerId, ...] = shown("Ids it had before.", default=())
    retired: RetiredTrouble | None = shown(RETIRED_SAYS, default=None)
    reviewed: Reviewed | None = shown("Last reviewed.", default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)

    def __post_init__(self) -> None:
        for key, given in (("signs", self.signs), ("now", self.now)):
            if not given:
                raise Refusal("empty-value", "This list is empty.", "Write what belongs in it.", (key,))
