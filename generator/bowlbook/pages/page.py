"""What makers make: a finished page, a file outside the theme, or a piece for another maker."""

from dataclasses import dataclass
from typing import Any, NamedTuple


class Heading(NamedTuple):
    """A second-level heading, for the page's own table of contents."""

    anchor: str
    title: str


class Change(NamedTuple):
    """The day of the last review (ISO 8601), and what changed that day."""

    day: str
    what: str


class SearchEntry(NamedTuple):
    """What search finds a page by, and its row in the results; all without HTML.

    ``text``: words beside the title; ``names``: other names of the whole. ``kind`` and ``tag``: labels of the
    row; ``note``: its second line. ``strip``: the levels it serves, as (from, to, whether lifted to).
    """

    title: str
    text: str
    kind: str = "Page"
    note: str = ""
    names: tuple[str, ...] = ()
    tag: str = ""
    strip: tuple[int, int, bool] | None = None
    change: Change | None = None


@dataclass(frozen=True, slots=True)
class Page:
    """``address`` is relative to the site's top and ends in a slash (empty for the front page).

    ``title`` and ``description`` are plain text; ``body`` is finished HTML. ``headings``: the list "On this
    page", which pages below reports/, changes/ and reference/ have. ``search``: what search finds it by.
    """

    address: str
    title: str
    description: str
    body: str
    headings: tuple[Heading, ...] = ()
    search: SearchEntry | None = None

    def __post_init__(self) -> None:
        if self.address and not self.address.endswith("/"):
            raise ValueError(f'The address of a page ends in a slash, and "{self.address}" has none')


class Document(NamedTuple):
    """A whole file outside the theme: a card to print, or data. ``path`` from the site's top."""

    path: str
    text: str


class Piece(NamedTuple):
    """Plain data from one maker that others need, such as a rendered card for a deck.

    ``name``: which of the maker's pieces it is. Others name it as ``maker#name``.
    """

    name: str
    value: Any
