"""Finished pages and documents folded up small: all are held at once, and each is looked into twice."""

import zlib
from dataclasses import dataclass

from bowlbook.pages.page import Document, Heading, Page, Piece, SearchEntry

QUICKLY = 1
"""zlib's level: HTML comes to a sixth."""


@dataclass(frozen=True, slots=True)
class PackedPage:
    """A page whose body is packed; the rest as in `Page`."""

    address: str
    title: str
    description: str
    headings: tuple[Heading, ...]
    search: SearchEntry | None
    packed: bytes

    @property
    def body(self) -> str:
        """Finished HTML."""
        return zlib.decompress(self.packed).decode()


@dataclass(frozen=True, slots=True)
class PackedDocument:
    """A file outside the theme, packed. ``path`` from the site's top."""

    path: str
    packed: bytes

    @property
    def content(self) -> bytes:
        """The file's bytes."""
        return zlib.decompress(self.packed)


Whole = PackedPage | PackedDocument
Packed = Whole | Piece


def packed(made: Page | Document | Piece) -> Packed:
    """What was made, folded up; a piece as it is."""
    if isinstance(made, Page):
        body = zlib.compress(made.body.encode(), QUICKLY)
        return PackedPage(made.address, made.title, made.description, made.headings, made.search, body)
    if isinstance(made, Document):
        return packed_document(made.path, made.text.encode())
    return made


def packed_document(path: str, content: bytes) -> PackedDocument:
    """A document of these bytes."""
    return PackedDocument(path, zlib.compress(content, QUICKLY))
