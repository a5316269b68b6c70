"""A finished page: its address, title, body, headings and what search knows of it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Heading:
    """A second-level heading, for the page's own table of contents."""

    anchor: str
    title: str


@dataclass(frozen=True, slots=True)
class SearchEntry:
    """What search finds a page by: plain text, not HTML."""

    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Page:
    """``address`` is relative to the site's top and ends in a slash (empty for the front page).

    ``title`` and ``description`` are plain text; ``body`` is finished HTML.
    """

    address: str
    title: str
    description: str
    body: str
    headings: tuple[Heading, ...]
    search: SearchEntry | None
