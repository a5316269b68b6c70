"""Every page of a book."""

from collections.abc import Iterator

from generator.book.book import Book
from generator.figures.candidate import candidates_of
from generator.pages.blend_page import blend_page
from generator.pages.card import cards_of
from generator.pages.class_page import class_page, handout_page
from generator.pages.coverage_page import coverage_page
from generator.pages.facet_page import FACET_VALUES, facet_page, heads_page
from generator.pages.finder_page import finder_page
from generator.pages.link_list import KIND_TITLES
from generator.pages.overview_page import changes_page, decks_page, home_page, index_page
from generator.pages.page import Document, Page
from generator.pages.product_page import product_page
from generator.pages.reference_page import fields_page, finding_pages, findings_page
from generator.pages.release_page import Since, release_page
from generator.pages.report_page import costs_page, dates_page, weighing_page
from generator.pages.service_sheet import service_page, sheets_of
from generator.pages.situation_page import situation_page
from generator.pages.technique_page import technique_page
from generator.pages.wording import Wording


def pages_of(book: Book, finder: str, since: Since | None = None) -> Iterator[Page]:
    """The pages of a book without errors, one after another, overviews first.

    ``finder``: the address of the finder's data. ``since``: the last release and what changed after it.
    """
    wording = Wording(book.house, priced=book.priced)
    yield home_page(book)
    for kind in KIND_TITLES:
        yield index_page(book, kind)
    yield changes_page(book, wording, since.release if since else None)
    if since:
        yield release_page(book, since.release, since.differences)
    if book.priced:
        yield costs_page(book, wording)
    yield weighing_page(book, wording)
    yield dates_page(book, wording)
    candidates = candidates_of(book)
    yield finder_page(finder)
    yield heads_page(book)
    yield coverage_page(book, candidates)
    for value in FACET_VALUES:
        yield facet_page(book, candidates, value)
    yield findings_page()
    yield from finding_pages()
    yield fields_page()
    for situation in book.situations.values():
        yield situation_page(book, situation, candidates, wording)
    for blend in book.blends.values():
        yield blend_page(book, blend, wording)
    for technique in book.techniques.values():
        sheets = sheets_of(book, technique, wording)
        yield technique_page(book, technique, sheets, wording)
        if sheets:
            yield service_page(technique, sheets)
    for product in book.products.values():
        yield product_page(book, product, wording)
    for notes in book.classes.values():
        yield class_page(book, notes, wording)
        yield handout_page(book, notes)
    yield decks_page(book)


def documents_of(book: Book, site_url: str) -> Iterator[Document]:
    """The files beside the pages: cards and decks. ``site_url``: what QR codes lead to."""
    yield from cards_of(book, Wording(book.house, priced=book.priced), site_url)
