"""The values of facets that have a page: their addresses, titles, and links to them."""

from typing import NamedTuple

from bowlbook.entries.facets import FACETS
from bowlbook.figures.head import DOMAINS, Head, bits_of
from bowlbook.pages.address import relative
from bowlbook.pages.link_list import LinkItem
from bowlbook.reading.amount import Span, counted
from bowlbook.wording.facet import FACET_NAMES

SLUGS = {"natural_level": "natural-level", "target_level": "lifted-to-level", "lift": "levels-of-lift"}


class FacetValue(NamedTuple):
    """A value of a facet, or a band of levels, with the address and title of its page."""

    facet: str
    bits: int
    address: str
    title: str


def _title(facet: str, value: int | str) -> str:
    if facet in ("natural_level", "target_level"):
        return f"{FACET_NAMES[facet]} {value}"
    if facet == "lift":
        return f"{counted(int(value), 'level')} of lift"
    text = str(value)
    noun = {"density": " density", "porosity": " porosity", "placement": " placement", "tone": " tone"}
    if facet == "grey":
        return {"none": "No grey hair", "all": "All of it grey"}.get(text, f"{text} of it grey".capitalize())
    if text in ("henna", "metallic dye", "pool water"):
        return f"Hair with {text}"
    hair = " hair" if facet in ("texture", "curl", "condition", "history") else noun.get(facet, "")
    return (text + hair).capitalize()


def _values() -> tuple[FacetValue, ...]:
    # A value's bit is its place in the facet's domain, as `figures.head` counts them.
    found = []
    for facet in FACETS:
        for place, value in enumerate(DOMAINS[facet]):
            title = _title(facet, value)
            slug = SLUGS.get(facet)
            name = f"{slug}-{value}" if slug else title.lower().replace(" ", "-")
            found.append(FacetValue(facet, 1 << place, f"heads/{name}/", title))
    # A colourist often knows only the band, before a level is settled.
    bands = (
        ("level-4-and-darker", "Level 4 and darker", Span(1, 4)),
        ("level-5-and-6", "Levels 5 and 6", Span(5, 6)),
        ("level-7-and-lighter", "Level 7 and lighter", Span(7, 10)),
    )
    for name, title, span in bands:
        found.append(FacetValue("natural_level", bits_of("natural_level", span), f"heads/{name}/", title))
    return tuple(found)


FACET_VALUES = _values()
"""Every value that has a page, in the order of a consultation, bands of levels last."""


def facet_links(head: Head, start: str) -> list[tuple[str, list[LinkItem]]]:
    """The facets that a head gives, by name, each value a link to its page."""
    rows = []
    for name, bits in zip(FACETS, head, strict=False):
        links = [
            LinkItem(str(DOMAINS[name][value.bits.bit_length() - 1]), relative(value.address, start))
            for value in FACET_VALUES
            if bits and value.facet == name and value.bits.bit_count() == 1 and value.bits & bits
        ]
        if links:
            rows.append((FACET_NAMES[name], links))
    return rows
