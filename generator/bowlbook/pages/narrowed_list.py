"""A list of entries, narrowed down by level, placement, tone and strength, and by first letter."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from bowlbook.entries.facets import PLACEMENTS, TONES
from bowlbook.entries.product import STRENGTHS
from bowlbook.pages.address import relative
from bowlbook.pages.link_list import LinkGroup
from bowlbook.pages.list_row import TONER
from bowlbook.pages.page import Page
from bowlbook.pages.pagination import ListPage
from bowlbook.pages.render import render

NARROWED = (
    ("Level", "level", tuple(map(str, range(1, 11)))),
    ("Placement", "placement", (*PLACEMENTS, TONER)),
    ("Tone", "tone", TONES),
    ("Strength", "strength", STRENGTHS),
)
"""What lists are narrowed down by: title, facet and values. A value that no row has is left out."""


class Letter(NamedTuple):
    """A first letter of names, the link to its first row, and, on the page of that row, its anchor."""

    letter: str
    href: str
    anchor: str


def narrowed_lists(list_pages: Sequence[ListPage[LinkGroup]], title: str, lead: str) -> Iterator[Page]:
    """The finished pages of a list."""
    rows = [item.row for each in list_pages for group in each.groups for item in group.items if item.row]
    held = {pick for row in rows for pick in row.picks.split()}
    kept = [
        (name, facet, [value for value in values if f"{facet}-{value}" in held])
        for name, facet, values in NARROWED
    ]
    for list_page in list_pages:
        name, here = list_page.title(title), list_page.address
        body = render(
            "list.html",
            here,
            title=name,
            lead=lead,
            list_page=list_page,
            drawn=any(row.drawn for row in rows),
            narrowed=[each for each in kept if len(each[2]) > 1],
            letters=_letters(list_pages, here) if rows else {},
            further=[relative(each.address, here) for each in list_pages if each is not list_page],
        )
        yield Page(here, name, lead, body)


def _letters(list_pages: Sequence[ListPage[LinkGroup]], here: str) -> dict[str, Letter]:
    """The letters of a list in one group, by the link of each one's first row; none for several groups."""
    if any(len(each.groups) != 1 or each.groups[0].title for each in list_pages):
        return {}
    found: dict[str, Letter] = {}
    seen: set[str] = set()
    for each in list_pages:
        page = "" if each.address == here else relative(each.address, here)
        for item in each.groups[0].items:
            letter = item.name[:1].upper()
            if letter not in seen:
                seen.add(letter)
                anchor = f"letter-{len(seen)}"
                found[f"{each.address} {item.href}"] = Letter(letter, f"{page}#{anchor}", anchor)
    return found
