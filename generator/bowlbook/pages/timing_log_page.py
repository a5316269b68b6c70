"""The page of the timing log. What is on it comes from the phone alone; the site knows nothing of it."""

from bowlbook.book.book import Book
from bowlbook.pages.page import Page
from bowlbook.pages.render import render

ADDRESS = "timing-log/"


def timing_log_page(book: Book) -> Page:
    """The finished page."""
    lead = "Minutes, checks and levels of today’s services, on this phone alone."
    return Page(ADDRESS, "Timing log", lead, render("timing_log.html", ADDRESS))
