"""Blends: which lighteners (or toners) in which parts, with how much of which developer, for which hair."""

from bowlbook.entries import words
from bowlbook.entries.amounts import Minutes, Parts, RatioField
from bowlbook.entries.entry import FLOOR_NAMES, Entry, Part, said
from bowlbook.entries.facets import Facets
from bowlbook.entries.ladder import Ladder
from bowlbook.entries.retired import RETIRED_SAYS, RetiredBlend
from bowlbook.entries.review import Reviewed
from bowlbook.reading.refusal import Refusal


class LightenerPart(Part):
    """One lightener in the bowl and its parts."""

    product: words.LightenerId = said("The lightener's id.", public=True)
    parts: Parts = said("Its parts, by weight.", public=True)


class TonerPart(Part):
    """One toner in a toning bowl and its parts."""

    product: words.TonerId = said("The toner's id.", public=True)
    parts: Parts = said("Its parts, by weight.", public=True)


class DeveloperChoice(Part):
    """How much developer, which, and which others may stand in."""

    ratio: RatioField = said("Lightener (or toner) to developer, by weight, as 1:2.", public=True)
    product: words.DeveloperId = said("The developer the recipe is written for.", public=True)
    also: tuple[words.DeveloperId, ...] = said(
        "Other developers it may be mixed with.", public=True, default=()
    )


class AdditivePart(Part):
    """An additive or toner in the bowl."""

    product: words.AdditiveId = said("The additive's id.", public=True)
    ratio: RatioField = said("Lightener (or toner) to additive, by weight, as 8:1.", public=True)


class NotFor(Part):
    """Heads that a blend must not be used on, why, and what to take instead."""

    when: Facets = said("The heads: all of these facets together.", public=True)
    because: words.Sentence = said("Why not.", public=True)
    instead: words.BlendId | None = said("The blend to take instead.", public=True, default=None)


class Blend(Entry):
    """A blend, ``recipes/blends/ID.yml``. It lightens or it tones: one of the two lists is given."""

    name: words.Name = said("What the floor calls it.", public=True)
    summary: words.Sentence | None = said("What it is for, in a sentence.", public=True, default=None)
    other_names: tuple[words.Name, ...] = said(FLOOR_NAMES, public=True, default=())
    lighteners: tuple[LightenerPart, ...] = said("The lighteners in pouring order.", public=True, default=())
    toners: tuple[TonerPart, ...] = said(
        "Instead of lighteners: the toners of a toning bowl, in pouring order.", public=True, default=()
    )
    developer: DeveloperChoice = said("The developer.", public=True)
    additives: tuple[AdditivePart, ...] = said(
        "Additives and toners that go in after the developer.", public=True, default=()
    )
    batches: Ladder | None = said(
        "This blend's own batch sizes, where the scale cannot weigh the house's.", public=True, default=None
    )
    fresh_for: Minutes | None = said("How long a mixed bowl stays fresh.", public=True, default=None)
    deepens: words.YesNo = said(
        "Of a toning bowl: yes where it takes hair deeper, as a lowlight; it answers no other wish.",
        public=True,
        default=False,
    )
    suits: Facets = said("The heads and wishes it is for.", public=True)
    not_for: tuple[NotFor, ...] = said("What it must not be used for.", public=True, default=())
    cautions: tuple[words.Sentence, ...] = said(
        "Cautions of this recipe, beside the usual ones.", public=True, default=()
    )
    notes: words.Markdown | None = said("Why it is mixed so, in Markdown.", public=True, default=None)
    formerly: tuple[words.FormerId, ...] = said("Ids it had before.", public=True, default=())
    retired: RetiredBlend | None = said(RETIRED_SAYS, public=True, default=None)
    reviewed: Reviewed | None = said("Last reviewed.", public=True, default=None)
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
