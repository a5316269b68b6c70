"""The facets by which a head of hair and a wish are described. Names: common practice of the trade."""

from functools import cached_property
from operator import attrgetter
from typing import Annotated, Any

from bowlbook.entries.amounts import span
from bowlbook.entries.entry import Part, authored, notes_in, said
from bowlbook.entries.words import Words
from bowlbook.reading.amount import Span

Tuple = tuple[str, ...]

LEVELS = Span(1, 10)
LIFTS = Span(1, 9)

TEXTURES = ("fine", "medium", "coarse")
DENSITIES = ("thin", "medium", "thick")
POROSITIES = ("low", "medium", "high")
CURLS = ("straight", "wavy", "curly", "coily")
CONDITIONS = ("sound", "dry", "stretchy", "breaking")
GREYS = ("none", "some", "half", "all")
HISTORIES = (
    "virgin",
    "previously lightened",
    "previously coloured",
    "permed",
    "relaxed",
    "smoothed",
    "henna",
    "metallic dye",
    "pool water",
)
COLOUR_HISTORIES = HISTORIES[:3]
"""What is known of colour and lightener in the hair. Recipes are written for these; the others are stops."""
AREAS = ("scalp regrowth", "hairline", "lengths", "ends")
PLACEMENTS = ("open-air", "foil", "on-scalp")
TONES = ("warm", "neutral", "cool")

Level = Annotated[Span, span(1, 10, "a level")]
Lift = Annotated[Span, span(1, 9, "levels of lift")]
Placements = Annotated[Tuple, Words(PLACEMENTS, "a placement")]


class Facets(Part):
    """A set of heads and wishes: a facet left out means that any will do."""

    natural_level: Level | None = said(
        "Natural level, 1 (darkest) to 10 (lightest): one level or a range such as 6-10.",
        public=True,
        default=None,
    )
    target_level: Level | None = said(
        "The level the hair is lifted to, before toning.", public=True, default=None
    )
    lift: Lift | None = said("Levels of lift, such as 1-3.", public=True, default=None)
    texture: Annotated[Tuple, Words(TEXTURES, "a texture")] = said(
        "Thickness of the single hair: fine, medium, coarse.", public=True, default=()
    )
    density: Annotated[Tuple, Words(DENSITIES, "a density")] = said(
        "How much hair there is: thin, medium, thick.", public=True, default=()
    )
    porosity: Annotated[Tuple, Words(POROSITIES, "a porosity")] = said(
        "How readily the hair takes up liquid: low, medium, high.", public=True, default=()
    )
    curl: Annotated[Tuple, Words(CURLS, "a curl")] = said(
        "Straight, wavy, curly, coily.", public=True, default=()
    )
    condition: Annotated[Tuple, Words(CONDITIONS, "a condition")] = said(
        "How the hair is: sound, dry, stretchy, breaking.", public=True, default=()
    )
    grey: Annotated[Tuple, Words(GREYS, "how much is grey")] = said(
        "How much of it is grey: none, some, half, all.", public=True, default=()
    )
    history: Annotated[Tuple, Words(HISTORIES, "a history")] = said(
        "Virgin, previously lightened, previously coloured, permed, relaxed, smoothed, henna, metallic dye, "
        "pool water.",
        public=True,
        default=(),
    )
    area: Annotated[Tuple, Words(AREAS, "an area")] = said(
        "Where on the head: scalp regrowth, hairline, lengths, ends.", public=True, default=()
    )
    placement: Placements = said(
        "How the lightener is placed: open-air, foil, on-scalp.", public=True, default=()
    )
    tone: Annotated[Tuple, Words(TONES, "a tone")] = said(
        "The tone wanted: warm, neutral, cool.", public=True, default=()
    )

    @cached_property
    def named(self) -> dict[str, Any]:
        """What is said, by facet, in the order of `FACETS`. Kept: each recipe is held against a rule's."""
        return {name: value for name, value in zip(FACETS, facet_values(self), strict=True) if value}


FACETS = tuple(spec.name for spec in authored(Facets))
"""The facets in the order in which a consultation asks for them."""

facet_values = attrgetter(*FACETS)
"""The values of a set of heads, in the order of `FACETS`."""

FACET_WORDS: dict[str, tuple[str, ...]] = {
    spec.name: note.words for spec in authored(Facets) for note in notes_in(spec.type, Words)
}
"""The words of each facet that has words, in the trade's order."""


def meet(first: Facets, second: Facets) -> Facets | None:
    """The heads that belong to both sets; None where there is no such head."""
    ones, met = facet_values(first), {}
    for name, other in second.named.items():
        one = getattr(first, name)
        if isinstance(one, Span):
            low, high = max(one.low, other.low), min(one.high, other.high)
            if low > high:
                return None
            other = Span(low, high)
        elif one:
            other = tuple([word for word in one if word in other])
            if not other:
                return None
        met[name] = other
    both = object.__new__(Facets)  # every field is set here: `Part` need not look for defaults
    vars(both).update(zip(FACETS, ones, strict=True), **met)
    return both


def within(inner: Facets, outer: Facets) -> bool:
    """Whether every head of ``inner`` is one of ``outer``."""
    for one, other in zip(facet_values(inner), facet_values(outer), strict=True):
        if not other:
            continue
        if not one:
            return False
        if isinstance(one, Span):
            if one.low < other.low or one.high > other.high:
                return False
        elif not set(one) <= set(other):
            return False
    return True
