"""The page Pick by hair: tap what is in the chair, and read what to mix, how to place it, and what not to."""

from typing import NamedTuple

from bowlbook.entries.facets import FACETS
from bowlbook.figures.head import DOMAINS, VOLUMES
from bowlbook.figures.verdict import Practice
from bowlbook.pages.address import relative
from bowlbook.pages.facet_value import FACET_VALUES
from bowlbook.pages.link_list import LinkItem
from bowlbook.pages.page import Page
from bowlbook.pages.render import render
from bowlbook.wording.facet import FACET_NAMES
from bowlbook.wording.stop_list import stop_list_of

ADDRESS = "pick/"
FIRST = ("natural_level", "texture", "tone", "lift", "area")
"""The facets that decide most, asked first."""


class AskedFacet(NamedTuple):
    """One facet with the values to tap; ``pages``: the same as links, for a phone without scripts.
    ``several``: whether several may be true."""

    name: str
    title: str
    values: tuple[str, ...]
    pages: tuple[LinkItem, ...]
    several: bool = False


NO_LIFT = "0"
"""The value of a lift that asks for none, as of ``bowlbook match --lift 0``."""


def _question(name: str) -> AskedFacet:
    pages = tuple(
        LinkItem(each.title, relative(each.address, ADDRESS)) for each in FACET_VALUES if each.facet == name
    )
    none = (NO_LIFT,) if name == "lift" else ()
    values = (*none, *map(str, DOMAINS[name]))
    return AskedFacet(name, FACET_NAMES[name], values, pages, name == "history")


NOW = AskedFacet("now", "Level it shows now, if coloured or lightened", tuple(map(str, DOMAINS["now"])), ())


def volumes_to_tap(practice: Practice) -> tuple[int, ...]:
    """The volumes of the book's developers, and one for anything stronger, lowest first."""
    bits = practice.volumes
    return tuple(volume for n, volume in enumerate(VOLUMES) if bits >> n & 1 or 0 < bits.bit_length() == n)


def pick_page(data: str, practice: Practice) -> Page:
    """The page Pick by hair. ``data``: the address of what `bowlbook.pages.pick_data` makes."""
    volumes = volumes_to_tap(practice)
    strongest = VOLUMES[practice.volumes.bit_length() - 1]
    body = render(
        "pick.html",
        ADDRESS,
        data=data,
        first=[_question(name) for name in FIRST],
        rest=[NOW, *(_question(name) for name in FACETS if name not in FIRST)],
        no_lift=NO_LIFT,
        volumes=[(each, f"over {strongest}" if each > strongest else each) for each in volumes],
        stop_list=stop_list_of(practice.stops, volumes),
        as_hair=(*FACETS, "volume"),
    )
    lead = "Describe the hair and get what to mix, how to place it, and what not to."
    return Page(ADDRESS, "Pick by hair", lead, body)
