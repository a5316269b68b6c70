"""The text of a page by hand in pieces: each paragraph, list item and table row, with its heading."""

from html.parser import HTMLParser
from typing import NamedTuple

BLOCKS = ("p", "li", "tr")
HEADINGS = ("h2", "h3")
LEFT_OUT = ("h1", "pre", "small")
LONGEST = 300
"""Characters of a piece that are kept."""


class TextPiece(NamedTuple):
    """``anchor`` and ``heading``: of the section it stands in, empty before the first one. ``name``: a table
    row's first cell, where the row is a word and what it means."""

    anchor: str
    heading: str
    name: str
    text: str


class _Reader(HTMLParser):
    """Collects pieces. A paragraph in a list item, and an item in an item, are pieces of their own."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.pieces: list[TextPiece] = []
        self.anchor = self.heading = ""
        self.cells: list[str] = [""]
        self.in_heading = self.left_out = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in HEADINGS:
            self.close_piece()
            self.in_heading, self.heading = True, ""
            self.anchor = dict(attrs).get("id") or ""
        elif tag in BLOCKS:
            self.close_piece()
        elif tag in ("td", "th"):
            self.cells.append("")
        self.left_out = self.left_out or tag in LEFT_OUT

    def handle_endtag(self, tag: str) -> None:
        if tag in HEADINGS:
            self.in_heading, self.heading = False, " ".join(self.heading.split())
        elif tag in BLOCKS:
            self.close_piece()
        elif tag in LEFT_OUT:
            self.left_out = False

    def handle_data(self, data: str) -> None:
        if self.in_heading:
            self.heading += data
        elif not self.left_out:
            self.cells[-1] += data

    def close_piece(self) -> None:
        """End the piece that is being read, if it has any text."""
        cells = [text for each in self.cells if (text := " ".join(each.split()))]
        self.cells = [""]
        if not cells:
            return
        name = cells[0] if len(cells) == 2 and len(cells[0]) <= 80 else ""
        text = ". ".join(cells[1:] if name else cells)
        self.pieces.append(TextPiece(self.anchor, self.heading, name, text[:LONGEST]))


def pieces_of(html: str) -> list[TextPiece]:
    """The pieces of a page's body, in order. Code, first-level headings and what is
    set small, as what a fold says of itself, are left out."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    reader.close_piece()
    return reader.pieces
