"""The page Try a blend: a bowl put together from the shelf, checked while typed, and written as an entry."""

from typing import NamedTuple

from bowlbook.entries.facets import FACET_WORDS, FACETS, Facets
from bowlbook.figures.head import DOMAINS, bits_of, values_of
from bowlbook.pages.address import relative
from bowlbook.pages.page import Page
from bowlbook.pages.render import render
from bowlbook.wording.facet import FACET_NAMES

ADDRESS = "try/"
FIRST = ("natural_level", "lift", "texture", "area", "placement", "tone")
"""The facets that most recipes name, asked first."""


class FacetChoice(NamedTuple):
    """One facet with the values to tap; ``ranged``: from one of them to another."""

    name: str
    title: str
    values: tuple[str, ...]
    ranged: bool


CHOICES = {
    name: FacetChoice(name, FACET_NAMES[name], tuple(map(str, DOMAINS[name])), name not in FACET_WORDS)
    for name in FACETS
}


def try_page(data: str, unit: str) -> Page:
    """The page, with an example in ``unit``. ``data``: the address of what `try_data` makes."""
    body = render(
        "try.html",
        ADDRESS,
        data=data,
        example={"g": "45 g", "oz": "1.5 oz"}[unit],
        first=[CHOICES[name] for name in FIRST],
        rest=[CHOICES[name] for name in FACETS if name not in FIRST],
    )
    lead = "Put a bowl together from the shelf; see it weighed and checked; write it down as a recipe."
    return Page(ADDRESS, "Try a blend", lead, body)


def try_for(hair: Facets, start: str) -> str:
    """The page's address for a blend for such heads, seen from the page at ``start``."""
    said = [(name, values_of(name, bits_of(name, getattr(hair, name)))) for name in FACETS]
    query = "&".join(f"{name}={'~'.join(map(str, values))}" for name, values in said if values)
    return f"{relative(ADDRESS, start)}?{query.replace(' ', '+')}"
