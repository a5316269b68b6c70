"""A finished page in MkDocs' hands: a ``Page`` whose body is HTML already."""

from functools import cached_property, lru_cache
from html import escape
from typing import cast
from urllib.parse import urlsplit

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.structure.toc import AnchorLink, TableOfContents

from bowlbook.site.book_pages import Finished, PageHead

NO_ADDRESS = cast(MkDocsConfig, {})
START = "start"
"""The anchor of every entry page's first heading."""


@lru_cache
def _site(address: str) -> tuple[str, str]:
    """The site's address with a slash at its end, and the path in it."""
    base = address if address.endswith("/") else f"{address}/"
    return base, urlsplit(base).path


class EntryPage(Page):
    """Carries a finished page past Markdown. Title and description are escaped: the theme does not.

    Its body is loaded whenever it is asked for, unless a plugin has put another text in its place.
    """

    _shown: str | None = None
    template: str | None = None
    """The template it is rendered with, if not the theme's own."""
    replaced: str | None = None
    """The text that another plugin put in the place of the body."""

    def __init__(self, finished: Finished, file: File, config: MkDocsConfig, foot: str) -> None:
        """``foot``: HTML at the end of the body."""
        assert isinstance(finished.head, PageHead)
        super().__init__(escape(finished.head.title), file, NO_ADDRESS)
        if config.site_url:  # addresses are simple here, and thousands of them need not be taken apart
            base, path = _site(config.site_url)
            self.canonical_url, self.abs_url = base + self.url, path + self.url
        self.finished, self.head, self.foot = finished, finished.head, foot

    def read_source(self, config: MkDocsConfig) -> None:
        """Nothing is read: the page came from the book."""
        self.markdown = ""
        self.meta = {
            "description": escape(self.head.description),
            "search": {"exclude": True},
            "entry": True,
            "glightbox": False,  # a plugin's scripts and styles in a page, which our policy refuses
        }
        if self.template is not None:
            self.meta["template"] = self.template

    def render(self, config: MkDocsConfig, files: Files) -> None:
        """Load the body only where a plugin will look at it next; `toc` is made when it is asked for."""
        others = len(config.plugins.events["page_content"]) > 1  # our own leaves it as it is
        self._shown = self._body() if others else ""
        vars(self).pop("toc", None)

    @cached_property
    def toc(self) -> TableOfContents:  # type: ignore[override]  # a plugin may set another one
        """The table of contents. It begins with the page's first heading, as for pages by hand.

        *Skip to content* leads there.
        """
        first = AnchorLink(self.title, START, 1)
        first.children = [AnchorLink(escape(each.title), each.anchor, 2) for each in self.head.headings]
        return TableOfContents([first])

    def _body(self) -> str:
        return self.finished.content.decode() + self.foot

    @property
    def content(self) -> str | None:
        """The body as HTML."""
        if self.replaced is not None:
            return self.replaced
        return self._body() if self._shown is None else self._shown

    @content.setter
    def content(self, value: str | None) -> None:
        """What a plugin made of the body, or, to be let go again, the body itself."""
        self.replaced = None if value is self._shown else value
        self._shown = None
