"""Troubles: what can go wrong at the chair, how it shows, and what to do now, never, and next time."""

from typing import Annotated

from bowlbook.entries.entry import ALSO_CALLED, Entry, Part, said
from bowlbook.entries.facets import Placements
from bowlbook.entries.retired import RETIRED_SAYS, RetiredTrouble
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import BlendId, FormerId, Markdown, Name, ProductId, Sentence, TechniqueId, one_of
from bowlbook.reading.refusal import Refusal

AT_RISK = ("person", "hair", "bowl")
"""Who or what a trouble harms, the gravest first."""


class ComesFrom(Part):
    """Where a trouble comes from: all that is named here, each by itself."""

    placement: Placements = said(
        "Placements: every technique that places lightener so.", public=True, default=()
    )
    techniques: tuple[TechniqueId, ...] = said("Techniques.", public=True, default=())
    blends: tuple[BlendId, ...] = said(
        "Blends, and with them the techniques that use them.", public=True, default=()
    )
    products: tuple[ProductId, ...] = said(
        "Products, and with them the blends and techniques that use them.", public=True, default=()
    )


class Trouble(Entry):
    """A trouble, ``recipes/troubles/ID.yml``."""

    name: Name = said("What somebody would call across the floor.", public=True)
    summary: Sentence | None = said("The first thing to do, in a sentence.", public=True, default=None)
    other_names: tuple[Name, ...] = said(ALSO_CALLED, public=True, default=())
    at_risk: Annotated[str, one_of(AT_RISK, "one of person, hair and bowl")] = said(
        "Who or what it harms first: person, hair or bowl.", public=True
    )
    signs: tuple[Sentence, ...] = said("How it shows: what is seen, felt or smelt.", public=True)
    now: tuple[Sentence, ...] = said("What to do now, in order.", public=True)
    never: tuple[Sentence, ...] = said("What never to do.", public=True, default=())
    doctor: tuple[Sentence, ...] = said(
        "When to send to a doctor, and when to call the emergency number.", public=True, default=()
    )
    next_visit: tuple[Sentence, ...] = said("What to do on the next visit.", public=True, default=())
    comes_from: ComesFrom | None = said(
        "Where it comes from. Left out, it can happen with anything.", public=True, default=None
    )
    advice_from: Sentence = said(
        "Who publishes this advice; else: common practice, no published source.", public=True
    )
    notes: Markdown | None = said("Why, in Markdown.", public=True, default=None)
    formerly: tuple[FormerId, ...] = said("Ids it had before.", public=True, default=())
    retired: RetiredTrouble | None = said(RETIRED_SAYS, public=True, default=None)
    reviewed: Reviewed | None = said("Last reviewed.", public=True, default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)

    def __post_init__(self) -> None:
        for key, given in (("signs", self.signs), ("now", self.now)):
            if not given:
                raise Refusal("empty-value", "This list is empty.", "Write what belongs in it.", (key,))
