"""Techniques: how a blend is placed, how long it stays, and what it takes."""

from typing import Annotated

from bowlbook.entries import words
from bowlbook.entries.amounts import MassField, Minutes, Percent, whole
from bowlbook.entries.drawn import Drawn
from bowlbook.entries.entry import FLOOR_NAMES, Entry, Part, said, shown
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

    on: Annotated[tuple[str, ...], words.Words(REGIONS, "a region of the head")] = shown(
        "Where: hairline, fringe, top, crown, sides, back, nape."
    )
    taken_in: Annotated[str, words.one_of(SECTIONINGS, "a way to section")] = shown(
        "triangles, slices, weaves, panels, ribbons, curls or partings."
    )


class TechniqueBowl(Part):
    """One bowl that a technique needs: what is in it and where it goes. A toning bowl comes last."""

    blend: words.BlendId = shown("The blend in it.")
    developer: words.DeveloperId | None = shown(
        "The developer here, where it is not the blend's own.", default=None
    )
    where: words.Sentence = shown("Where it goes, in words.")
    area: Annotated[tuple[str, ...], words.Words(AREAS, "an area")] = shown(
        "Where on the head it goes: scalp regrowth, hairline, lengths, ends. Left out: the areas of the "
        "technique that its blend is for.",
        default=(),
    )
    zones: Annotated[tuple[str, ...], words.Words(ZONES, "a strand zone")] = shown(
        "Strand zones: 1 root, 2 mid-length, 3 ends."
    )
    sections: Annotated[int, whole(1, 400, "sections")] | None = shown(
        "How many sections or foils it covers.", default=None
    )
    mix_per_section: MassField | None = shown(
        "Mixed lightener on one section: lightener and developer together.", default=None
    )
    minutes_per_section: Minutes | None = shown("How long applying one section takes.", default=None)
    by_turns: words.YesNo | None = shown(
        "yes: used by turns with the bowl listed before it, section by section.", default=None
    )
    backcomb: Percent | None = shown("The share of each section that is backcombed away.", default=None)


class Processing(Part):
    """How long it stays and how it is watched."""

    minutes: Minutes = shown("Longest processing time; the maker's own comes first.")
    counts_from: Annotated[str, words.one_of(COUNTS_FROM, "a start of the processing time")] = shown(
        "From when it counts: first section, each section (each is rinsed at its own time) or last section.",
        default=LAST_SECTION,
    )
    check_every: Minutes = shown("How often it is checked.")
    stop_when: words.Sentence = shown("What is looked for, and when it is rinsed.")


class SupplyCount(Part):
    """A supply and how many."""

    product: words.ProductId = shown("The supply's id.")
    count: Annotated[int, whole(1, 2000, "pieces")] = shown("How many.")
    by_sections: words.YesNo | None = shown(
        "yes: it goes with the sections, as foils do; dense hair takes more.", default=None
    )


class TechniqueNotFor(Part):
    """Heads that a technique must not be used on, why, and what to do instead."""

    when: Facets = shown("The heads: all of these facets together.")
    because: words.Sentence = shown("Why not.")
    instead: words.TechniqueId | None = shown("The technique to use instead.", default=None)


class Technique(Entry):
    """A technique, ``recipes/techniques/ID.yml``."""

    name: words.Name = shown("What the floor calls it.")
    summary: words.Sentence | None = shown("What it gives, in a sentence.", default=None)
    other_names: tuple[words.Name, ...] = shown(FLOOR_NAMES, default=())
    placement: Annotated[str, words.one_of(PLACEMENTS, "a placement")] = shown("open-air, foil or on-scalp.")
    section_pattern: words.Sentence = shown("How the head is sectioned.")
    sections: tuple[Sectioning, ...] = shown("The same, region by region, for the drawing.", default=())
    tools: tuple[words.Sentence, ...] = shown("What lies ready.", default=())
    bowls: tuple[TechniqueBowl, ...] = shown("The bowls, in the order they are mixed.")
    hands: Annotated[int, whole(1, 2, "people")] = shown(
        "How many people apply at once: 2 halves the minutes.", default=1
    )
    steps: tuple[words.Sentence, ...] = shown("What is done, in order.")
    processing: Processing = shown("Processing and checking.")
    rinse_and_tone: words.Sentence | None = shown("Rinsing and toning.", default=None)
    aftercare: words.Sentence | None = shown("What the client does at home.", default=None)
    supplies: tuple[SupplyCount, ...] = shown("Supplies it uses up.", default=())
    suits: Facets = shown("The heads and wishes it is for.")
    not_for: tuple[TechniqueNotFor, ...] = shown("What it must not be used for.", default=())
    cautions: tuple[words.Sentence, ...] = shown(
        "Cautions of this technique, beside the usual ones.", default=()
    )
    notes: words.Markdown | None = shown("Why it is done so, in Markdown.", default=None)
    pictures: tuple[TechniquePicture, ...] = shown("Pictures of the house's own.", default=())
    drawings: tuple[Drawn, ...] = shown("Drawings of the placement, made from words.", default=())
    films: tuple[Film, ...] = shown("Films that stand elsewhere.", default=())
    formerly: tuple[words.FormerId, ...] = shown("Ids it had before.", default=())
    retired: RetiredTechnique | None = shown(RETIRED_SAYS, default=None)
    reviewed: Reviewed | None = shown("Last reviewed.", default=None)
    private: words.Markdown | None = said("Notes for the team only.", default=None)

    def __post_init__(self) -> None:
        for field, kind in (("pictures", "picture"), ("drawings", "drawing")):
            for index, each in enumerate(getattr(self, field)):
                if each.step is not None and each.step > len(self.steps):
                    steps = counted(len(self.steps), "step")
                    message = f"There is no step {each.step}; the technique has {steps}."
                    mend = f"Write the number of the step that the {kind} shows."
                    raise Refusal("out-of-bounds", message, mend, (field, index, "step"))
