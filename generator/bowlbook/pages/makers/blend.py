"""What is made of a blend."""

from collections.abc import Iterator

from bowlbook.book.book import Book
from bowlbook.book.long_texts import whole_at
from bowlbook.figures.bowl import bowls_of
from bowlbook.figures.candidate import is_lightening
from bowlbook.figures.proportion import developer_share
from bowlbook.figures.withdrawn import retired_in
from bowlbook.pages.blend_page import blend_page
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.pages.cards.card import card_of
from bowlbook.pages.cards.strand_slip import strand_slip
from bowlbook.pages.maker import Output
from bowlbook.pages.makers import BOWL, LISTED, RECIPES, ROWS, SHARE, TRIED
from bowlbook.pages.overview_page import listed_item
from bowlbook.pages.page import Piece
from bowlbook.pages.pick_recipe import first_bowl, shown_from
from bowlbook.pages.report_page import bowl_report_rows
from bowlbook.pages.try_data import recipe_data
from bowlbook.wording.locale_format import locale_format_of


def blend(book: Book, entry_id: str, site_url: str) -> Iterator[Output]:
    """Its page, its strand slip, its card, and its pieces. ``site_url``: as `card_of` takes it."""
    entry, formats = whole_at(book.blends, entry_id), locale_format_of(book)
    bowls = bowls_of(book, entry)
    panels = panels_of(book, bowls, formats)
    yield blend_page(book, entry, bowls[0], panels, formats)
    if not retired_in(book, entry):
        yield strand_slip(book, entry)
        yield from card_of(book, entry, formats, site_url, bowls)
    yield Piece(ROWS, bowl_report_rows(entry, panels))
    yield Piece(BOWL, None if entry.tones else first_bowl(panels))
    yield Piece(RECIPES, shown_from(book, "blend", entry_id))
    yield Piece(SHARE, developer_share(entry) if is_lightening(book, entry) else None)
    yield Piece(TRIED, recipe_data(entry))
    yield Piece(LISTED, listed_item(book, "blend", entry))
