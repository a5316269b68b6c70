"""Situations: a named head of hair with a wish, and what the house says to it."""

from bowlbook.entries.entry import ALSO_CALLED, Entry, Part, said, shown
from bowlbook.entries.facets import Facets
from bowlbook.entries.picture import Film, Picture
from bowlbook.entries.retired import RETIRED_SAYS, RetiredSituation
from bowlbook.entries.review import Reviewed
from bowlbook.entries.words import BlendId, FormerId, Markdown, Name, Sentence, TechniqueId


class Advised(Part):
    """A blend the house takes here, how it is placed, and why."""

    blend: BlendId = shown("The blend.")
    technique: TechniqueId | None = shown("The technique to place it with.", default=None)
    because: Sentence = shown("Why this one.")


class Avoided(Part):
    """A blend or technique the house keeps away from here, and why."""

    blend: BlendId | None = shown("The blend.", default=None)
    technique: TechniqueId | None = shown("The technique.", default=None)
    because: Sentence = shown("Why not.")


class Situation(Entry):
    """A situation, ``recipes/situations/ID.yml``."""

    name: Name = shown("What the floor would say of this head.")
    summary: Sentence | None = shown("The head and the wish, in a sentence.", default=None)
    other_names: tuple[Name, ...] = shown(ALSO_CALLED, default=())
    hair: Facets = shown("The head and the wish, in facets.")
    take: tuple[Advised, ...] = shown("What the house takes, first choice first.")
    avoid: tuple[Avoided, ...] = shown("What it keeps away from.", default=())
    advice: Markdown = shown("The house's advice, in Markdown.")
    cautions: tuple[Sentence, ...] = shown("Cautions for this head, beside the usual ones.", default=())
    pictures: tuple[Picture, ...] = shown("Pictures of the house's own.", default=())
    films: tuple[Film, ...] = shown("Films that stand elsewhere.", default=())
    formerly: tuple[FormerId, ...] = shown("Ids it had before.", default=())
    retired: RetiredSituation | None = shown(RETIRED_SAYS, default=None)
    reviewed: Reviewed | None = shown("Last reviewed.", default=None)
    private: Markdown | None = said("Notes for the team only.", default=None)
