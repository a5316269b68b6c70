"""A blend's page: the bowl and its own cautions, then tools and, folded, the reasons."""

from itertools import filterfalse

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Product
from bowlbook.entries.technique import Technique
from bowlbook.figures.bowl import Bowl, developers_of
from bowlbook.figures.developer import peroxide_by_developer
from bowlbook.figures.rounding import fixed
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bowl_panel import Panel
from bowlbook.pages.cards.card import card_address
from bowlbook.pages.cards.strand_slip import slip_address
from bowlbook.pages.closing import closing_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.good_for import good_for
from bowlbook.pages.link_list import link_to, used_in_short, where_used
from bowlbook.pages.measured_text import with_weights
from bowlbook.pages.mix_data import mix_data
from bowlbook.pages.page import Page
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.pages.stand_in import stand_in_tables
from bowlbook.pages.trouble_page import trouble_links
from bowlbook.pages.vessel import vessel_of
from bowlbook.pages.withdrawn import withdrawn_links
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.entry import lettered_recipe, note_of, product_note
from bowlbook.wording.locale_format import LocaleFormat


def blend_page(
    book: Book, blend: Blend, first: Bowl, panels: tuple[Panel, ...], formats: LocaleFormat
) -> Page:
    """The finished page of a blend. ``panels``: its bowl in every size; ``first``: the first of these."""
    address = entry_address("blend", blend.id)
    techniques = [link_to("technique", each, address, each.summary) for each in _techniques(book, blend)]
    products = _products(book, blend)
    # Techniques have a section of their own on this page, with their summaries.
    used = [group for group in where_used(book, "blend", blend, address) if group.title != "Techniques"]
    withdrawn = withdrawn_links(book, blend, address)
    body = render(
        "blend.html",
        address,
        blend=blend,
        recipe=lettered_recipe(book, blend),
        vessel=vessel_of(book, blend),
        withdrawn=withdrawn,
        mixing=mix_data(book, blend, formats),
        card=None if withdrawn else relative(card_address("blend", blend.id), address),
        slip=None if withdrawn else relative(slip_address(blend.id), address),
        panels=panels,
        fresh_for=counted(blend.fresh_for, "minute") if blend.fresh_for else None,
        techniques=techniques,
        # Peroxide hardly depends on the size; the page opens with the first one.
        developers=[
            (each.name, each.id, f"{fixed(percent, 2)} %")
            for each, percent in peroxide_by_developer(book, first)
        ],
        developers_batch=panels[0].label,
        limits=[
            f"{limit.jurisdiction}: at most {plain(limit.peroxide)} % in the mixture as applied, since "
            f"{formats.day(limit.since)}. {limit.source}."
            for limit in book.house.limits
        ],
        stand_ins=stand_in_tables(book, blend),
        products=[link_to("product", each, address, product_note(each)) for each in products],
        troubles=trouble_links(book, blend, address),
        notes=with_weights(free_text(blend.notes), book, products),
        used=used,
        used_by=used_in_short([("Techniques", techniques), *((group.title, group.items) for group in used)]),
        **good_for(book, "blend", blend, address),
        **closing_of(book, blend, formats),
    )
    lead = blend.summary or note_of(book, "blend", blend) or blend.name
    return Page(address, blend.name, lead, body, search=search_entry(book, "blend", blend))


def _products(book: Book, blend: Blend) -> list[Product]:
    """What it is mixed from, in the order of pouring, with every developer that it allows."""
    ids = [each.product for each in (*blend.shares, *blend.additives)]
    return [*(book.products[entry_id] for entry_id in ids), *developers_of(book, blend)]


def _techniques(book: Book, blend: Blend) -> list[Technique]:
    users = book.used_by.get(("blend", blend.id), ())
    found = (book.techniques[entry_id] for kind, entry_id in users if kind == "technique")
    return sorted(filterfalse(is_retired, found), key=lambda each: (each.name.casefold(), each.id))
