"""Pages by hair situation: one for every value of every facet, with what suits it and what does not."""

from collections.abc import Iterator
from itertools import islice
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.current import ids_by_name
from bowlbook.entries.facets import FACETS
from bowlbook.figures.head import Head, head_of, head_with
from bowlbook.figures.head_sets import HeadSets, head_sets
from bowlbook.figures.tally import places_of
from bowlbook.figures.verdict import Practice
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.answers import MOST_ANSWERS, asked_of
from bowlbook.pages.facet_value import FACET_VALUES, FacetValue
from bowlbook.pages.link_list import LinkGroup, LinkItem
from bowlbook.pages.page import Page, SearchEntry
from bowlbook.pages.pagination import paginate, render_pages
from bowlbook.pages.render import render
from bowlbook.wording.facet import FACET_NAMES
from bowlbook.wording.reason import pigment_sentences


class SituationIndex(NamedTuple):
    """A book's situations by name, and the set of heads that each describes, for finding similar ones.

    ``situations``: id, name and summary of each.
    """

    situations: tuple[tuple[str, str, str | None], ...]
    sets: HeadSets

    def matching(self, head: Head, most: int) -> list[tuple[str, str, str | None]]:
        """The first ``most`` situations that overlap with ``head`` in every facet that it gives."""
        found = self.sets.every
        for place, asked in enumerate(head):
            if asked:
                found &= self.sets.with_any(place, asked)
        return [self.situations[place] for place in islice(places_of(found), most)]


def situation_index(book: Book) -> SituationIndex:
    """The situations of a book, indexed once for all pages of facet values."""
    found = [book.situations[each] for each in ids_by_name(book.situations)]
    return SituationIndex(
        tuple((each.id, each.name, each.summary) for each in found),
        head_sets([head_of(each.hair) for each in found]),
    )


STATE_OR_WISH = {
    "natural_level": "The level that hair has by nature, before anything is done.",
    "target_level": "A wish: hair that is to be lifted to this level. What it shows now is its natural "
    "level, or the level that an earlier lift left.",
    "lift": "A wish: how many levels lighter than it is now.",
    "tone": "A wish: the tone in the end.",
}
"""What a level or tone on a page means, where it could be the hair's state or a wish."""


def facet_page(book: Book, practice: Practice, situations: SituationIndex, value: FacetValue) -> Page:
    """The page of one facet value."""
    head = head_with(**{value.facet: value.bits})
    similar = [
        LinkItem(name, relative(entry_address("situation", entry_id), value.address), summary)
        for entry_id, name, summary in situations.matching(head, MOST_ANSWERS)
    ]
    siblings = [
        LinkItem(each.title, relative(each.address, value.address))
        for each in FACET_VALUES
        if each.facet == value.facet and each.address != value.address
    ]
    asked = asked_of(book, practice, head, value.address)
    body = render(
        "facet.html",
        value.address,
        title=value.title,
        meaning=STATE_OR_WISH.get(value.facet),
        pigment=pigment_sentences(head),
        answered=asked.answered,
        groups=asked.groups,
        situations=similar,
        siblings=siblings,
        pick=relative("pick/", value.address),
    )
    lead = f"What this book mixes and does for {value.title[0].lower()}{value.title[1:]}, and what not."
    search = SearchEntry(value.title, "", "By kind of hair")
    return Page(value.address, value.title, lead, body, search=search)


def heads_pages(book: Book) -> Iterator[Page]:
    """The list of every facet value."""
    address = "heads/"
    groups = []
    for name in FACETS:
        values = [value for value in FACET_VALUES if value.facet == name]
        items = tuple(LinkItem(value.title, relative(value.address, address)) for value in values)
        groups.append(LinkGroup(FACET_NAMES[name], name.replace("_", "-"), items))
    lead = "What suits each kind of hair and each wish, one at a time, and what does not."
    return render_pages(paginate(address, groups), "By kind of hair", lead)
