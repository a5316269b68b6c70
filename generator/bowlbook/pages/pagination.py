"""Long lists on pages of a limited size: each further page continues every list where the last one stopped.

A list that is short enough stays as it is, on one page at its own address.
"""

from collections.abc import Iterator, Sequence
from typing import Generic, NamedTuple, TypeVar

from bowlbook.pages.address import relative
from bowlbook.pages.link_list import LinkGroup, LinkItem
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.render import render
from bowlbook.pages.table import ReportTable

MOST = 100
"""How many entries of one list a page shows."""
SIGNPOSTS = 40
"""About how many other pages a page links to: its neighbours, and others at even distances."""

Listed = TypeVar("Listed", LinkGroup, ReportTable)


class ListPage(NamedTuple, Generic[Listed]):
    """One page of a list, by its number. ``others``: links to other pages, with what each of them holds."""

    address: str
    number: int
    of: int
    groups: list[Listed]
    others: list[LinkItem]

    def title(self, whole: str) -> str:
        """The page's title, from that of the whole list."""
        return whole if self.number == 1 else f"{whole}, page {self.number} of {self.of}"

    def headings(self) -> tuple[Heading, ...]:
        """A heading for each list that has a title, and one for the other pages."""
        own: list[Heading] = [Heading(group.anchor, group.title) for group in self.groups if group.title]
        return (*own, *([Heading("pages", "Other pages")] if self.others else []))


def paginate(address: str, groups: Sequence[Listed], most: int = MOST) -> list[ListPage[Listed]]:
    """The pages of some lists whose links start at ``address``: the first stands there, the others below it.

    Every page holds at most ``most`` entries of each list. From each page the one before and the one after
    are linked, so that every entry is within reach.
    """
    longest = max((len(group.items) for group in groups), default=0)
    cut = [_cut(groups, number, most) for number in range(max(1, -(-longest // most)))]
    # Made once: each page shows a choice of the same links.
    links = [
        LinkItem(f"Page {number} of {len(cut)}", page_address(address, number), _note(each))
        for number, each in enumerate(cut, 1)
    ]
    list_pages: list[ListPage[Listed]] = []
    for number, own in enumerate(cut, 1):
        here = page_address(address, number)
        linked = [links[other - 1] for other in _signposts(number, len(cut))]
        others = [each._replace(href=relative(each.href, here)) for each in linked]
        list_pages.append(ListPage(here, number, len(cut), own, others))
    return list_pages


def render_pages(list_pages: Sequence[ListPage[Listed]], title: str, lead: str) -> Iterator[Page]:
    """The finished pages of some plain lists."""
    for list_page in list_pages:
        name = list_page.title(title)
        body = render("index.html", list_page.address, title=name, lead=lead, list_page=list_page)
        yield Page(list_page.address, name, lead, body)


def page_address(address: str, number: int) -> str:
    """The address of the n-th page of a list. An entry called "page" would stand above it, not in its way."""
    return address if number == 1 else f"{address}page/{number}/"


def _cut(groups: Sequence[Listed], number: int, most: int) -> list[Listed]:
    """The content of one page, counted from 0. A further page has only lists long enough to reach it."""
    if number == 0:
        return [group._replace(items=group.items[:most]) for group in groups]
    found = []
    for group in groups:
        some = group.items[number * most : (number + 1) * most]
        # Links are relative to the first page, and further ones are two folders below it.
        items = tuple(each._replace(href=f"../../{each.href}") for each in some)
        if items:
            found.append(group._replace(items=items))
    return found


def _note(groups: Sequence[LinkGroup] | Sequence[ReportTable]) -> str:
    ranges = []
    for group in groups:
        if group.items:
            first, last = group.ends()
            ranges.append(f"{group.title}: {first} to {last}" if group.title else f"{first} to {last}")
    return "; ".join(ranges)


def _signposts(number: int, count: int) -> list[int]:
    """The numbers of the pages that one page links to, in order."""
    step = -(-count // SIGNPOSTS)
    # Neighbours for reading on, even distances for jumping ahead.
    near = range(number - 2, number + 3)
    return [
        other
        for other in range(1, count + 1)
        if other != number and (other in near or other in (1, count) or other % step == 0)
    ]
