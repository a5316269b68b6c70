"""The book's files of a site, for MkDocs: its pages, data, moved addresses, pictures, assets and manual."""

from collections.abc import Iterable, Iterator
from html import escape
from typing import NamedTuple

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files, InclusionLevel

from bowlbook.book.book import Book
from bowlbook.pages.asset import asset_folder, assets
from bowlbook.pages.makers import PICK
from bowlbook.pages.manual import manual_files
from bowlbook.pages.moved import INDEX, moved_addresses, moved_page
from bowlbook.site.beneath import FRAME
from bowlbook.site.book_pages import Finished, PageHead
from bowlbook.site.entry_page import EntryPage
from bowlbook.site.own_file import OwnFile, document_file
from bowlbook.site.repository import Repository
from bowlbook.site.search_files import DATA


class PageFiles(NamedTuple):
    """The files of a book's pages and data. ``addresses``: of all of them, from the book's top."""

    files: list[File]
    addresses: list[str]

    @property
    def pick(self) -> str:
        """The name of the data of Pick by hair among the site's data; empty without any."""
        start = f"{DATA}/{PICK}-"
        found = [each for each in self.addresses if each.startswith(start)]
        return found[-1].removeprefix(f"{DATA}/") if found else ""


def page_files(
    book: Book,
    finished: Iterable[Finished],
    config: MkDocsConfig,
    beneath: str,
    repository: Repository | None,
) -> PageFiles:
    """The files of what the book's makers made, ``beneath`` a folder of the site, in the given order.

    ``repository``: where entries are edited, which the foot of each page leads to; None and no page does.
    """
    found = PageFiles([], [])
    for made in finished:
        head = made.head
        if isinstance(head, PageHead):
            foot = repository.foot(book, head.address) if repository is not None else ""
            found.files.append(_page_file(book, made, head.address, config, beneath, foot))
            found.addresses.append(head.address)
        else:
            found.files.append(document_file(f"{beneath}{head.path}", made, config))
            found.addresses.append(head.path.removesuffix(INDEX))
    return found


def _page_file(
    book: Book, made: Finished, address: str, config: MkDocsConfig, beneath: str, foot: str
) -> File:
    """The file of a page. Only the front page of a book beneath another site is for that site's menu."""
    is_front = bool(beneath) and not address
    inclusion = InclusionLevel.INCLUDED if is_front else InclusionLevel.NOT_IN_NAV
    file = OwnFile.generated(config, f"{beneath}{address}index.md", content="", inclusion=inclusion)
    file.dest_uri = f"{beneath}{address}{INDEX}"  # as MkDocs would find for each of thousands
    page = EntryPage(made, file, config, foot)
    page.template = FRAME if beneath else None
    if is_front:
        page.title = escape(book.house.title)
    return file


def moved_files(
    book: Book, addresses: list[str], config: MkDocsConfig, beneath: str, site_url: str
) -> Iterator[File]:
    """A page at each former address of an entry that leads to where it is now."""
    for moved in moved_addresses(book, addresses):
        page = moved_page(book, moved, site_url)
        yield OwnFile.generated(config, f"{beneath}{page.path}", content=page.text)


def asset_files(config: MkDocsConfig, beneath: str) -> Iterator[File]:
    """Scripts, styles and signs of the book's pages."""
    for name, asset in assets().items():
        yield OwnFile.generated(config, f"{beneath}{asset_folder()}/{name}", content=asset)


def manual_page_files(config: MkDocsConfig, beneath: str) -> Iterator[File]:
    """The manual's pages that are written by hand, each as Markdown for MkDocs."""
    for path, source in manual_files().items():
        yield OwnFile.generated(
            config, f"{beneath}{path}", abs_src_path=str(source), inclusion=InclusionLevel.NOT_IN_NAV
        )


def refuse_two_in_one_place(by_hand: dict[str, File], files: Files) -> None:
    """Refuse a page by hand where a page of the book stands: one of them would be lost without a word."""
    for file in files:
        other = by_hand.get(file.dest_uri) if file.generated_by else None
        if other is not None:
            text = f"{other.src_uri} would stand in the place of the book's own {file.url}"
            raise PluginError(f"{text}; give it another name.")
