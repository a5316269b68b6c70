"""The document that cards are printed from."""

from collections.abc import Sequence

from markupsafe import Markup

from bowlbook.book.book import Book
from bowlbook.pages.page import Document
from bowlbook.pages.policy import POLICY
from bowlbook.pages.render import render
from bowlbook.reading.amount import counted


def print_document(book: Book, address: str, title: str, cards: Sequence[Markup], back: str) -> Document:
    """Cards in one document to print, the way back above them; ``back``: a relative link."""
    html = render(
        "cards/document.html",
        address,
        # A card is outside the theme, so its policy is not set by the theme's template.
        policy=POLICY,
        lang=book.house.locale,
        title=title,
        house=book.house.title,
        cards=cards,
        count=counted(len(cards), "card"),
        back=back,
    )
    return Document(f"{address}index.html", html)
