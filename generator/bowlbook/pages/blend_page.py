"""A blend's page: the bowl first, then cautions, what it is good for, techniques, products and notes."""

from dataclasses import dataclass
from itertools import filterfalse

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.technique import Technique, TechniqueNotFor
from bowlbook.figures.bowl import developers_of, ladder_of, mix
from bowlbook.figures.developer import peroxide_by_developer
from bowlbook.figures.head import head_of
from bowlbook.figures.rounding import fixed
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bowl_panel import Panel
from bowlbook.pages.cards.card import card_address
from bowlbook.pages.cards.strand_slip import slip_address
from bowlbook.pages.closing import closing_of
from bowlbook.pages.drawing import bowl_drawing
from bowlbook.pages.facet_page import facet_links
from bowlbook.pages.free_text import free_text
from bowlbook.pages.link_list import LinkItem, link_to, where_used
from bowlbook.pages.mix_data import mix_data
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.pages.stand_in import stand_in_tables
from bowlbook.pages.trouble_page import trouble_links
from bowlbook.pages.withdrawn import withdrawn_links
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.caution import USUAL_CAUTIONS
from bowlbook.wording.entry import note_of, product_note, recipe_of
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.locale_format import LocaleFormat


@dataclass(frozen=True, slots=True)
class RefusalRow:
    """Heads a recipe is not for, why, and a link to what to take instead."""

    heads: str
    because: str
    instead: LinkItem | None


@dataclass(frozen=True, slots=True)
class DeveloperRow:
    """A developer and the peroxide it brings to the bowl."""

    id: str
    name: str
    peroxide: str


def refusal_rows(
    book: Book, kind: str, refusals: tuple[NotFor, ...] | tuple[TechniqueNotFor, ...], start: str
) -> list[RefusalRow]:
    """The refusals of a blend or technique, as its page at ``start`` shows them."""
    return [
        RefusalRow(
            facet_sentence(each.when) or "any head",
            each.because,
            link_to(kind, book.of_kind(kind)[each.instead], start) if each.instead else None,
        )
        for each in refusals
    ]


def blend_page(book: Book, blend: Blend, panels: tuple[Panel, ...], formats: LocaleFormat) -> Page:
    """The finished page of a blend. ``panels``: its bowl in every size."""
    address = entry_address("blend", blend.id)
    # Peroxide and the drawing hardly depend on the size; the page opens with the first one.
    unit, batch, step = ladder_of(book, blend)[0]
    first = mix(book, blend, unit, batch, step)
    techniques = [link_to("technique", each, address, each.summary) for each in _techniques(book, blend)]
    ids = [each.product for each in blend.shares] + [each.product for each in blend.additives]
    products = [*(book.products[entry_id] for entry_id in ids), *developers_of(book, blend)]
    links = [link_to("product", each, address, product_note(each)) for each in products]
    # Techniques have a section of their own on this page, with their summaries.
    used = [group for group in where_used(book, "blend", blend, address) if group.title != "Techniques"]
    body = render(
        "blend.html",
        address,
        blend=blend,
        recipe=recipe_of(book, blend),
        withdrawn=withdrawn_links(book, blend, address),
        mixing=mix_data(book, blend, formats),
        bar=bowl_drawing(first, "bar"),
        card=relative(card_address("blend", blend.id), address),
        slip=relative(slip_address(blend.id), address),
        panels=panels,
        fresh_for=counted(blend.fresh_for, "minute") if blend.fresh_for else None,
        usual=USUAL_CAUTIONS,
        suits=facet_links(head_of(blend.suits), address),
        refusals=refusal_rows(book, "blend", blend.not_for, address),
        techniques=techniques,
        developers=[
            DeveloperRow(each.id, each.name, f"{fixed(percent, 2)} %")
            for each, percent in peroxide_by_developer(book, first)
        ],
        developers_batch=panels[0].label,
        limits=[
            f"{limit.jurisdiction}: at most {plain(limit.peroxide)} % in the mixture as applied, since "
            f"{formats.day(limit.since)}. {limit.source}."
            for limit in book.house.limits
        ],
        stand_ins=stand_in_tables(book, blend),
        products=links,
        troubles=trouble_links(book, blend, address),
        notes=free_text(blend.notes),
        used=used,
        **closing_of(book, blend, formats),
    )
    headings = [Heading("bowl", "The bowl"), Heading("cautions", "Cautions")]
    headings += [Heading("trouble", "If it goes wrong"), Heading("suits", "Good for")]
    headings += [Heading("not-for", "Not for")] if blend.not_for else []
    headings += [Heading("techniques", "Techniques")] if techniques else []
    headings += [Heading("developer", "Developer"), Heading("products", "Products")]
    headings += [Heading("notes", "Why it is mixed so")] if blend.notes else []
    headings += [Heading("where-used", "Where used")] if used else []
    return Page(
        address,
        blend.name,
        blend.summary or note_of(book, "blend", blend) or blend.name,
        body,
        tuple(headings),
        search_entry(book, "blend", blend),
    )


def _techniques(book: Book, blend: Blend) -> list[Technique]:
    users = book.used_by.get(("blend", blend.id), ())
    found = (book.techniques[entry_id] for kind, entry_id in users if kind == "technique")
    return sorted(filterfalse(is_retired, found), key=lambda each: (each.name.casefold(), each.id))
