"""The page Pick by hair: tap what is in the chair, and read what to mix, how to place it, and what not to."""

from dataclasses import dataclass

from bowlbook.entries.circumstances import PERSONS, WORN
from bowlbook.entries.facets import FACETS
from bowlbook.figures.head import DOMAINS
from bowlbook.pages.address import relative
from bowlbook.pages.facet_page import FACET_VALUES
from bowlbook.pages.link_list import LinkItem
from bowlbook.pages.page import Heading, Page, SearchEntry
from bowlbook.pages.render import render
from bowlbook.wording.caution import USUAL_CAUTIONS
from bowlbook.wording.facet import FACET_NAMES

ADDRESS = "pick/"
FIRST = ("natural_level", "texture", "tone", "lift", "area")
"""The facets that decide most, asked first."""


@dataclass(frozen=True, slots=True)
class Question:
    """One facet with the values to tap; ``pages``: the same as links, for a phone without scripts.
    ``several``: whether several may be true; ``kept``: whether the address keeps it, as it does of hair."""

    name: str
    title: str
    values: tuple[str, ...]
    pages: tuple[LinkItem, ...]
    several: bool = False
    kept: bool = True


def _question(name: str) -> Question:
    pages = tuple(
        LinkItem(each.title, relative(each.address, ADDRESS)) for each in FACET_VALUES if each.facet == name
    )
    return Question(name, FACET_NAMES[name], tuple(map(str, DOMAINS[name])), pages, name == "history")


STOPS = (
    Question("person", "The person", PERSONS, (), several=True, kept=False),
    Question("wearing", "Worn", WORN, (), several=True, kept=False),
)
"""What stops any head, asked with each."""


def pick_page(data: str) -> Page:
    """The page Pick by hair. ``data``: the address of what `bowlbook.pages.pick_data` makes."""
    body = render(
        "pick.html",
        ADDRESS,
        data=data,
        first=[_question(name) for name in FIRST],
        rest=[_question(name) for name in FACETS if name not in FIRST],
        stops=STOPS,
        usual=USUAL_CAUTIONS,
    )
    lead = "Describe the hair and get what to mix, how to place it, and what not to."
    headings = (Heading("head", "The hair"), Heading("stops", "Stop if …"), Heading("answer", "The answer"))
    entry = SearchEntry("Pick by hair", "Describe the head, find a blend, what to mix, which bleach, choose")
    return Page(ADDRESS, "Pick by hair", lead, body, headings, entry)
