"""A situation's page: what to take and its bowl, cautions, what to keep away from, and the advice."""

from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.situation import Advised, Avoided, Situation
from bowlbook.figures.bowl import bowls_of
from bowlbook.figures.head import NATURAL, TARGET, head_of
from bowlbook.figures.verdict import Practice
from bowlbook.figures.withdrawn import retired_in
from bowlbook.pages.address import entry_address
from bowlbook.pages.answers import asked_of
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.pages.closing import closing_of
from bowlbook.pages.drawing import Drawing, levels_drawing
from bowlbook.pages.facet_value import facet_links
from bowlbook.pages.free_text import free_text
from bowlbook.pages.link_list import LinkItem, link_to, used_in_short, where_used
from bowlbook.pages.page import Page
from bowlbook.pages.picture import shown_pictures
from bowlbook.pages.placement import emblem_of
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.pages.strip import strip_of
from bowlbook.pages.try_page import try_for
from bowlbook.pages.vessel import vessel_of
from bowlbook.wording.entry import recipe_of
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.locale_format import LocaleFormat
from bowlbook.wording.reason import pigment_sentences


class AdvisedBlend(NamedTuple):
    """A blend to take, how it is placed, with what that technique is known by, and why."""

    blend: LinkItem
    technique: LinkItem | None
    drawn: Drawing | None
    because: str


def _choice(book: Book, taken: Advised, start: str) -> AdvisedBlend:
    blend = book.blends[taken.blend]
    technique = book.techniques[taken.technique] if taken.technique else None
    emblem = emblem_of(technique) if technique else None
    return AdvisedBlend(
        link_to("blend", blend, start, recipe_of(book, blend)),
        link_to("technique", technique, start) if technique else None,
        emblem[0] if emblem else None,
        taken.because,
    )


def _kept_away(book: Book, away: Avoided, start: str) -> LinkItem | None:
    """The blend or technique to keep away from."""
    if away.blend:
        return link_to("blend", book.blends[away.blend], start)
    return link_to("technique", book.techniques[away.technique], start) if away.technique else None


def situation_page(book: Book, situation: Situation, practice: Practice, formats: LocaleFormat) -> Page:
    """The finished page of a situation."""
    address = entry_address("situation", situation.id)
    # Its bowl is on this page, so that one tap from the list is enough at the bench.
    choices = (book.blends[each.blend] for each in situation.take)
    first = next((blend for blend in choices if not retired_in(book, blend)), None)
    is_first = first is not None and first.id == situation.take[0].blend
    weighed = "First choice, weighed" if is_first or first is None else f"{first.name}, weighed"
    used = where_used(book, "situation", situation, address)
    asked = asked_of(book, practice, head_of(situation.hair), address, most=5)
    body = render(
        "situation.html",
        address,
        situation=situation,
        take=[_choice(book, each, address) for each in situation.take],
        first=first,
        weighed=weighed,
        panels=panels_of(book, bowls_of(book, first), formats) if first else (),
        vessel=vessel_of(book, first) if first else None,
        levels_served=strip_of(situation.hair),
        avoid=[(_kept_away(book, each, address), each.because) for each in situation.avoid],
        make=try_for(situation.hair, address),
        hair=facet_links(head_of(situation.hair), address),
        answered=asked.answered,
        pigment=pigment_sentences(asked.said),
        levels=levels_drawing(asked.said[NATURAL], asked.said[TARGET]),
        groups=asked.groups,
        advice=free_text(situation.advice),
        facets=facet_sentence(situation.hair),
        used=used,
        used_by=used_in_short((group.title, group.items) for group in used),
        **shown_pictures(book, situation, address),
        **closing_of(book, situation, formats),
    )
    lead = situation.summary or facet_sentence(situation.hair)
    return Page(address, situation.name, lead, body, search=search_entry(book, "situation", situation))
