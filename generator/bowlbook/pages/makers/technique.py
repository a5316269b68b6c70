"""What is made of a technique."""

from collections.abc import Iterator

from bowlbook.book.book import Book
from bowlbook.book.long_texts import whole_at
from bowlbook.figures.withdrawn import retired_in
from bowlbook.pages.cards.card import card_of
from bowlbook.pages.maker import Output
from bowlbook.pages.makers import LISTED, RECIPES, SERVICE
from bowlbook.pages.overview_page import listed_item
from bowlbook.pages.page import Piece
from bowlbook.pages.pick_recipe import shown_from
from bowlbook.pages.report_page import service_report_row
from bowlbook.pages.service_sheet import opened_first, service_page, sheets_of
from bowlbook.pages.technique_page import technique_page
from bowlbook.wording.locale_format import locale_format_of


def technique(book: Book, entry_id: str, site_url: str) -> Iterator[Output]:
    """Its page, its service sheets, its card, and its pieces. ``site_url``: as `card_of` takes it."""
    entry, formats = whole_at(book.techniques, entry_id), locale_format_of(book)
    sheets = sheets_of(book, entry, formats)
    yield technique_page(book, entry, sheets, formats)
    if sheets.sheets:
        yield service_page(entry, sheets)
    if not retired_in(book, entry):
        yield from card_of(book, entry, formats, site_url)
    row = service_report_row(entry, opened_first(sheets.sheets)) if sheets.sheets else None
    yield Piece(SERVICE, row)
    yield Piece(RECIPES, shown_from(book, "technique", entry_id))
    yield Piece(LISTED, listed_item(book, "technique", entry))
