"""Every page of a book, each made apart from the others."""

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from generator.book.book import Book
from generator.entries.class_notes import ClassNotes
from generator.entries.technique import Technique
from generator.figures.candidate import candidates_of
from generator.figures.shortlist import index_of
from generator.pages.blend_page import blend_page
from generator.pages.card import card_makers
from generator.pages.class_page import class_page, handout_page
from generator.pages.coverage_page import coverage_page
from generator.pages.facet_page import FACET_VALUES, facet_page, heads_of, heads_pages
from generator.pages.finder_page import finder_page
from generator.pages.link_list import KIND_TITLES
from generator.pages.overview_page import changes_page, decks_pages, home_page, index_pages
from generator.pages.page import Document, Page
from generator.pages.product_page import product_pages
from generator.pages.reference_page import fields_page, finding_pages, findings_page
from generator.pages.release_page import Since, release_page
from generator.pages.report_page import bowl_reports, date_reports
from generator.pages.service_sheet import service_page, sheets_of
from generator.pages.situation_page import situation_page
from generator.pages.technique_page import technique_page
from generator.pages.wording import Wording

Maker = Callable[[], Iterable[Page | Document]]
"""Makes some of a book's pages and documents: on its own, so that it may run in any process, in any order."""


def makers_of(book: Book, finder: str, since: Since | None = None, site_url: str = "") -> list[Maker]:
    """What makes the pages of a book without errors, overviews first, cards and decks last.

    ``finder``: the address of the finder's data. ``since``: the last release and what changed after it.
    ``site_url``: what QR codes on cards lead to; empty, and there are none.
    """
    wording = Wording(book.house, priced=book.priced)
    index, heads = index_of(candidates_of(book)), heads_of(book)
    makers: list[Maker] = [
        partial(_overviews, book, since, wording),
        partial(bowl_reports, book, wording),
        partial(date_reports, book, wording),
        partial(_guides, book, finder),
        partial(_one, coverage_page, book, index),
        *(partial(_one, facet_page, book, index, heads, value) for value in FACET_VALUES),
        finding_pages,
    ]
    makers += [partial(_one, situation_page, book, each, index, wording) for each in book.situations.values()]
    makers += [partial(_one, blend_page, book, each, wording) for each in book.blends.values()]
    makers += [partial(_of_technique, book, each, wording) for each in book.techniques.values()]
    makers += [partial(product_pages, book, each, wording) for each in book.products.values()]
    makers += [partial(_of_class, book, each, wording) for each in book.classes.values()]
    return [*makers, *card_makers(book, wording, site_url)]


def _one(page: Callable[..., Page], *given: object) -> list[Page]:
    return [page(*given)]


def _overviews(book: Book, since: Since | None, wording: Wording) -> Iterator[Page]:
    yield home_page(book)
    for kind in KIND_TITLES:
        yield from index_pages(book, kind)
    yield changes_page(book, wording, since.release if since else None)
    if since:
        yield release_page(book, since.release, since.differences)


def _guides(book: Book, finder: str) -> Iterator[Page]:
    yield finder_page(finder)
    yield from heads_pages(book)
    yield findings_page()
    yield fields_page()
    yield from decks_pages(book)


def _of_technique(book: Book, technique: Technique, wording: Wording) -> Iterator[Page]:
    sheets = sheets_of(book, technique, wording)
    yield technique_page(book, technique, sheets, wording)
    if sheets:
        yield service_page(technique, sheets)


def _of_class(book: Book, notes: ClassNotes, wording: Wording) -> Iterator[Page]:
    yield class_page(book, notes, wording)
    yield handout_page(book, notes)
