"""The page Pick by hair: tap what is in the chair, and read what to mix, how to place it, and what not to."""

from dataclasses import dataclass

from bowlbook.entries.facets import FACETS
from bowlbook.figures.head import DOMAINS
from bowlbook.pages.address import relative
from bowlbook.pages.facet_page import FACET_VALUES
from bowlbook.pages.link_list import LinkItem
from bowlbook.pages.page import Heading, Page, SearchEntry
from bowlbook.pages.render import render
from bowlbook.wording.facet import FACET_NAMES
from bowlbook.wording.stop_list import STOP_LIST

ADDRESS = "pick/"
FIRST = ("natural_level", "texture", "tone", "lift", "area")
"""The facets that decide most, asked first."""


@dataclass(frozen=True, slots=True)
class Question:
    """One facet with the values to tap; ``pages``: the same as links, for a phone without scripts.
    ``several``: whether several may be true."""

    name: str
    title: str
    values: tuple[str, ...]
    pages: tuple[LinkItem, ...]
    several: bool = False


def _question(name: str) -> Question:
    pages = tuple(
        LinkItem(each.title, relative(each.address, ADDRESS)) for each in FACET_VALUES if each.facet == name
    )
    return Question(name, FACET_NAMES[name], tuple(map(str, DOMAINS[name])), pages, name == "history")


NOW = Question("now", "Level it shows now, if coloured or lightened", tuple(map(str, DOMAINS["now"])), ())

SIGNS = (
    ("go", "m7 20h24m-9-10 10 10-10 10"),
    ("with care", "m7 16h24m-8-9 9 9-9 9M6 34h28"),
    ("tone only", "M20 5c6 8 10 12 10 18a10 10 0 0 1-20 0c0-6 4-10 10-18Z"),
    ("more than one visit", "m5 20h9m-4-5 5 5-5 5M20 7v26m5-13h9m-4-5 5 5-5 5"),
    ("test first", "m14 5c-7 10 7 20 0 30M26 5c-7 10 7 20 0 30"),
    ("not today", "m5 12h30v5H5zm0 12h30v5H5z"),
)
"""The sign of each verdict, beside its word: outlines in a square of 40."""


def pick_page(data: str) -> Page:
    """The page Pick by hair. ``data``: the address of what `bowlbook.pages.pick_data` makes."""
    body = render(
        "pick.html",
        ADDRESS,
        data=data,
        first=[_question(name) for name in FIRST],
        rest=[NOW, *(_question(name) for name in FACETS if name not in FIRST)],
        stop_list=STOP_LIST,
        kept=FACETS,
        signs=SIGNS,
    )
    lead = "Describe the hair and get what to mix, how to place it, and what not to."
    headings = (Heading("head", "The hair"), Heading("answer", "The answer"))
    entry = SearchEntry("Pick by hair", "Describe the head, find a blend, what to mix, which bleach, choose")
    return Page(ADDRESS, "Pick by hair", lead, body, headings, entry)
