"""Facets of hair and natural levels in words."""

from bowlbook.entries.facets import FACETS, Facets
from bowlbook.reading.amount import Span, counted
from bowlbook.wording.listing import either

FACET_NAMES = {
    "natural_level": "Natural level",
    "target_level": "Target level",
    "lift": "Levels of lift",
    "texture": "Texture",
    "density": "Density",
    "porosity": "Porosity",
    "curl": "Curl",
    "condition": "Condition",
    "grey": "Grey",
    "history": "History",
    "area": "Area",
    "placement": "Placement",
    "tone": "Tone wanted",
}

LEVEL_WORDS = (
    "black",
    "nearly black",
    "dark brown",
    "brown",
    "light brown",
    "dark blonde",
    "blonde",
    "light blonde",
    "pale blonde",
    "palest blonde",
)
"""The natural levels 1 to 10, as colourists say them: common practice, no published source."""


def facet_sentence(facets: Facets) -> str:
    """The facets in one line, as ``natural level 1–4, coarse, cool``."""
    phrases = []
    for name in FACETS:
        value = getattr(facets, name)
        if isinstance(value, Span):
            unit = {"natural_level": "natural level", "target_level": "target level"}.get(name)
            phrases.append(f"{unit} {value}" if unit else f"{counted(value, 'level')} of lift")
        elif value:
            noun = {"density": " density", "porosity": " porosity", "grey": " grey"}.get(name, "")
            phrases.append(either(value) + noun)
    return ", ".join(phrases)
