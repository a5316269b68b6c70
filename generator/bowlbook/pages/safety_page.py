"""The safety page of a house that has not written one: the usual cautions, which every page leads to."""

from bowlbook.book.book import Book
from bowlbook.pages.page import Page, SearchEntry
from bowlbook.pages.render import render
from bowlbook.wording.caution import USUAL_CAUTIONS

ADDRESS = "safety/"


def safety_page(book: Book) -> Page:
    """The usual cautions as a page."""
    body = render("safety.html", ADDRESS, usual=USUAL_CAUTIONS)
    search = SearchEntry("Safety", " ".join(USUAL_CAUTIONS))
    return Page(ADDRESS, "Safety", "What holds for every mix.", body, search=search)
