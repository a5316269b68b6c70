"""Situations: a named head of hair with a wish, and what the house says to it."""

from bowlbook.entries.entry import ALSO_CALLED, Entry, Part, said
from bowlbook.entries.facets import Facets
from bowlbook.entries.picture import Film, Picture
from bowlbook.entries.retired import RETIRED_SAYS, RetiredSituation
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import BlendId, FormerId, Markdown, Name, Sentence, TechniqueId


class Advised(Part):
    """A blend the house takes here, how it is placed, and why."""

    blend: BlendId = said("The blend.", public=True)
    technique: TechniqueId | None = said("The technique to place it with.", public=True, default=None)
    because: Sentence = said("Why this one.", public=True)


class Avoided(Part):
    """A blend or technique the house keeps away from here, and why."""

    blend: BlendId | None = said("The blend.", public=True, default=None)
    technique: TechniqueId | None = said("The technique.", public=True, default=None)
    because: Sentence = said("Why not.", public=True)


class Situation(Entry):
    """A situation, ``recipes/situations/ID.yml``."""

    name: Name = said("What the floor would say of this head.", public=True)
    summary: Sentence | None = said("The head and the wish, in a sentence.", public=True, default=None)
    other_names: tuple[Name, ...] = said(ALSO_CALLED, public=True, default=())
    hair: Facets = said("The head and the wish, in facets.", public=True)
    take: tuple[Advised, ...] = said("What the house takes, first choice first.", public=True)
    avoid: tuple[Avoided, ...] = said("What it keeps away from.", public=True, default=())
    advice: Markdown = said("The house's advice, in Markdown.", public=True)
    cautions: tuple[Sentence, ...] = said(
        "Cautions for this head, beside the usual ones.", public=True, default=()
    )
    pictures: tuple[Picture, ...] = said("Pictures of the house's own.", public=True, default=())
    films: tuple[Film, ...] = said("Films that stand elsewhere.", public=True, default=())
    formerly: tuple[FormerId, ...] = said("Ids it had before.", public=True, default=())
    retired: RetiredSituation | None = said(RETIRED_SAYS, public=True, default=None)
    reviewed: Reviewed | None = said("Last reviewed.", public=True, default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)
