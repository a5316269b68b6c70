"""Techniques: how a blend is placed, how long it stays, and what it takes."""

from typing import Annotated

from bowlbook.entries import words
from bowlbook.entries.amounts import MassField, Minutes, Percent, whole
from bowlbook.entries.drawn import Drawn
from bowlbook.entries.entry import FLOOR_NAMES, Entry, Part, said
from bowlbook.entries.facets import AREAS, PLACEMENTS, Facets
from bowlbook.entries.picture import Film, TechniquePicture
from bowlbook.entries.retired import RETIRED_SAYS, RetiredTechnique
from bowlbook.entries.review import Reviewed
from bowlbook.reading.amount import counted
from bowlbook.reading.refusal import Refusal

ZONES = ("1", "2", "3")
REGIONS = ("hairline", "fringe", "top", "crown", "sides", "back", "nape")
"""Where on the head a section is."""
SECTIONINGS = ("triangles", "slices", "weaves", "panels", "ribbons", "curls", "partings")
"""How hair is taken there."""
FIRST_SECTION, EACH_SECTION, LAST_SECTION = "first section", "each section", "last section"
COUNTS_FROM = (FIRST_SECTION, EACH_SECTION, LAST_SECTION)
"""From when processing counts: when the first section is in, each by itself, or when the last is in."""


class Sectioning(Part):
    """How the hair of some regions of the head is taken, for the drawing."""

    on: Annotated[tuple[str, ...], words.Words(REGIONS, "a region of the head")] = said(
        "Where: hairline, fringe, top, crown, sides, back, nape.", public=True
    )
    taken_in: Annotated[str, words.one_of(SECTIONINGS, "a way to section")] = said(
        "triangles, slices, weaves, panels, ribbons, curls or partings.", public=True
    )


class TechniqueBowl(Part):
    """One bowl that a technique needs: what is in it and where it goes. A toning bowl comes last."""

    blend: words.BlendId = said("The blend in it.", public=True)
    developer: words.DeveloperId | None = said(
        "The developer here, where it is not the blend's own.", public=True, default=None
    )
    where: words.Sentence = said("Where it goes, in words.", public=True)
    area: Annotated[tuple[str, ...], words.Words(AREAS, "an area")] = said(
        "Where on the head it goes: scalp regrowth, hairline, lengths, ends. Left out: the areas of the "
        "technique that its blend is for.",
        public=True,
        default=(),
    )
    zones: Annotated[tuple[str, ...], words.Words(ZONES, "a strand zone")] = said(
        "Strand zones: 1 root, 2 mid-length, 3 ends.", public=True
    )
    sections: Annotated[int, whole(1, 400, "sections")] | None = said(
        "How many sections or foils it covers.", public=True, default=None
    )
    mix_per_section: MassField | None = said(
        "Mixed lightener on one section: lightener and developer together.", public=True, default=None
    )
    minutes_per_section: Minutes | None = said(
        "How long applying one section takes.", public=True, default=None
    )
    by_turns: words.YesNo | None = said(
        "yes: used by turns with the bowl listed before it, section by section.", public=True, default=None
    )
    backcomb: Percent | None = said(
        "The share of each section that is backcombed away.", public=True, default=None
    )


class Processing(Part):
    """How long it stays and how it is watched."""

    minutes: Minutes = said("Longest processing time; the maker's own comes first.", public=True)
    counts_from: Annotated[str, words.one_of(COUNTS_FROM, "a start of the processing time")] = said(
        "From when it counts: first section, each section (each is rinsed at its own time) or last section.",
        public=True,
        default=LAST_SECTION,
    )
    check_every: Minutes = said("How often it is checked.", public=True)
    stop_when: words.Sentence = said("What is looked for, and when it is rinsed.", public=True)


class SupplyCount(Part):
    """A supply and how many."""

    product: words.ProductId = said("The supply's id.", public=True)
    count: Annotated[int, whole(1, 2000, "pieces")] = said("How many.", public=True)
    by_sections: words.YesNo | None = said(
        "yes: it goes with the sections, as foils do; dense hair takes more.", public=True, default=None
    )


class TechniqueNotFor(Part):
    """Heads that a technique must not be used on, why, and what to do instead."""

    when: Facets = said("The heads: all of these facets together.", public=True)
    because: words.Sentence = said("Why not.", public=True)
    instead: words.TechniqueId | None = said("The technique to use instead.", public=True, default=None)


class Technique(Entry):
    """A technique, ``recipes/techniques/ID.yml``."""

    name: words.Name = said("What the floor calls it.", public=True)
    summary: words.Sentence | None = said("What it gives, in a sentence.", public=True, default=None)
    other_names: tuple[words.Name, ...] = said(FLOOR_NAMES, public=True, default=())
    placement: Annotated[str, words.one_of(PLACEMENTS, "a placement")] = said(
        "open-air, foil or on-scalp.", public=True
    )
    section_pattern: words.Sentence = said("How the head is sectioned.", public=True)
    sections: tuple[Sectioning, ...] = said(
        "The same, region by region, for the drawing.", public=True, default=()
    )
    tools: tuple[words.Sentence, ...] = said("What lies ready.", public=True, default=())
    bowls: tuple[TechniqueBowl, ...] = said("The bowls, in the order they are mixed.", public=True)
    hands: Annotated[int, whole(1, 2, "people")] = said(
        "How many people apply at once: 2 halves the minutes.", public=True, default=1
    )
    steps: tuple[words.Sentence, ...] = said("What is done, in order.", public=True)
    processing: Processing = said("Processing and checking.", public=True)
    rinse_and_tone: words.Sentence | None = said("Rinsing and toning.", public=True, default=None)
    aftercare: words.Sentence | None = said("What the client does at home.", public=True, default=None)
    supplies: tuple[SupplyCount, ...] = said("Supplies it uses up.", public=True, default=())
    suits: Facets = said("The heads and wishes it is for.", public=True)
    not_for: tuple[TechniqueNotFor, ...] = said("What it must not be used for.", public=True, default=())
    cautions: tuple[words.Sentence, ...] = said(
        "Cautions of this technique, beside the usual ones.", public=True, default=()
    )
    notes: words.Markdown | None = said("Why it is done so, in Markdown.", public=True, default=None)
    pictures: tuple[TechniquePicture, ...] = said("Pictures of the house's own.", public=True, default=())
    drawings: tuple[Drawn, ...] = said("Drawings of the placement, made from words.", public=True, default=())
    films: tuple[Film, ...] = said("Films that stand elsewhere.", public=True, default=())
    formerly: tuple[words.FormerId, ...] = said("Ids it had before.", public=True, default=())
    retired: RetiredTechnique | None = said(RETIRED_SAYS, public=True, default=None)
    reviewed: Reviewed | None = said("Last reviewed.", public=True, default=None)
    private: words.Markdown | None = said("Notes for the team only.", default=None)

    def __post_init__(self) -> None:
        for field, shown in (("pictures", "picture"), ("drawings", "drawing")):
            for index, each in enumerate(getattr(self, field)):
                if each.step is not None and each.step > len(self.steps):
                    steps = counted(len(self.steps), "step")
                    message = f"There is no step {each.step}; the technique has {steps}."
                    mend = f"Write the number of the step that the {shown} shows."
                    raise Refusal("out-of-bounds", message, mend, (field, index, "step"))
