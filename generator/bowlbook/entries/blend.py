"""Blends: which lighteners (or toners) in which parts, with how much of which developer, for which hair."""

from bowlbook.entries import words
from bowlbook.entries.amounts import Minutes, Parts, RatioField
from bowlbook.entries.entry import FLOOR_NAMES, Entry, Part, said, shown
from bowlbook.entries.facets import Facets
from bowlbook.entries.ladder import Ladder
from bowlbook.entries.retired import RETIRED_SAYS, RetiredBlend
from bowlbook.entries.review import Reviewed
from bowlbook.reading.refusal import Refusal


class LightenerPart(Part):
    """One lightener in the bowl and its parts."""

    product: words.LightenerId = shown("The lightener's id.")
    parts: Parts = shown("Its parts, by weight.")


class TonerPart(Part):
    """One toner in a toning bowl and its parts."""

    product: words.TonerId = shown("The toner's id.")
    parts: Parts = shown("Its parts, by weight.")


class DeveloperChoice(Part):
    """How much developer, which, and which others may stand in."""

    ratio: RatioField = shown("Lightener (or toner) to developer, by weight, as 1:2.")
    product: words.DeveloperId = shown("The developer the recipe is written for.")
    also: tuple[words.DeveloperId, ...] = shown("Other developers it may be mixed with.", default=())


class AdditivePart(Part):
    """An additive or toner in the bowl."""

    product: words.AdditiveId = shown("The additive's id.")
    ratio: RatioField = shown("Lightener (or toner) to additive, by weight, as 8:1.")


class NotFor(Part):
    """Heads that a blend must not be used on, why, and what to take instead."""

    when: Facets = shown("The heads: all of these facets together.")
    because: words.Sentence = shown("Why not.")
    instead: words.BlendId | None = shown("The blend to take instead.", default=None)


class Blend(Entry):
    """A blend, ``recipes/blends/ID.yml``. It lightens or it tones: one of the two lists is given."""

    name: words.Name = shown("What the floor calls it.")
    summary: words.Sentence | None = shown("What it is for, in a sentence.", default=None)
    other_names: tuple[words.Name, ...] = shown(FLOOR_NAMES, default=())
    lighteners: tuple[LightenerPart, ...] = shown("The lighteners in pouring order.", default=())
    toners: tuple[TonerPart, ...] = shown(
        "Instead of lighteners: the toners of a toning bowl, in pouring order.", default=()
    )
    developer: DeveloperChoice = shown("The developer.")
    additives: tuple[AdditivePart, ...] = shown(
        "Additives and toners that go in after the developer.", default=()
    )
    batches: Ladder | None = shown(
        "This blend's own batch sizes, where the scale cannot weigh the house's.", default=None
    )
    fresh_for: Minutes | None = shown("How long a mixed bowl stays fresh.", default=None)
    deepens: words.YesNo = shown(
        "Of a toning bowl: yes where it takes hair deeper, as a lowlight; it answers no other wish.",
        default=False,
    )
    suits: Facets = shown("The heads and wishes it is for.")
    not_for: tuple[NotFor, ...] = shown("What it must not be used for.", default=())
    cautions: tuple[words.Sentence, ...] = shown(
        "Cautions of this recipe, beside the usual ones.", default=()
    )
    notes: words.Markdown | None = shown("Why it is mixed so, in Markdown.", default=None)
    formerly: tuple[words.FormerId, ...] = shown("Ids it had before.", default=())
    retired: RetiredBlend | None = shown(RETIRED_SAYS, default=None)
    reviewed: Reviewed | None = shown("Last reviewed.", default=None)
    private: words.Markdown | None = said("Notes for the team only.", default=None)

    def __post_init__(self) -> None:
        if self.lighteners and self.toners:
            message = "A bowl lightens or tones; this one has lighteners and toners by parts."
            mend = "Make two blends of it; a little toner in a lightening bowl is an additive."
            raise Refusal("lightener-and-toner", message, mend, ("toners",))
        if self.lighteners and self.deepens:
            message = "A bowl that lightens takes no hair deeper."
            mend = "Take deepens: out; it is for toning bowls."
            raise Refusal("lightener-and-toner", message, mend, ("deepens",))
        if not self.shares:
            message = 'The key "lighteners" is missing here.'
            mend = "Add lighteners: (or toners:, for a toning bowl) and under it what is mixed, by parts."
            raise Refusal("missing-key", message, mend)

    @property
    def shares(self) -> tuple[LightenerPart, ...] | tuple[TonerPart, ...]:
        """What shares the batch by parts, in pouring order: the lighteners, or the toners."""
        return self.lighteners or self.toners

    @property
    def tones(self) -> bool:
        """Whether it tones rather than lightens."""
        return bool(self.toners)
