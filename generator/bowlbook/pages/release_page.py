"""What changed at the bench since the last release, as a page."""

from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.figures.difference import Difference
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.render import render
from bowlbook.wording.difference import fact_sentence, in_short, who_should_know
from bowlbook.wording.entry import KIND_NAMES

RELEASE_ADDRESS = "changes/release/"
MOST_SHOWN = 200
"""Entries that the page lists at most; `bowlbook diff` lists all of them."""


class Since(NamedTuple):
    """The last release's name, and what changed at the bench after it."""

    release: str
    differences: tuple[Difference, ...]


def release_page(book: Book, since: Since) -> Page:
    """The page: first who should know, then the changes entry by entry."""
    release, differences = since.release, since.differences
    entries = [_entry(each) for each in differences[:MOST_SHOWN]]
    who = who_should_know(book, differences)
    body = render(
        "release.html",
        RELEASE_ADDRESS,
        release=release,
        short=in_short(differences),
        who=who,
        entries=entries,
        more=max(0, len(differences) - MOST_SHOWN),
    )
    title = f"Since {release}"
    headings = (*([Heading("who", "Who should know")] if who else []), Heading("entries", "Entry by entry"))
    return Page(RELEASE_ADDRESS, title, f"What changed at the bench since {release}.", body, headings)


def _entry(each: Difference) -> tuple[str, str | None, str, list[str]]:
    """An entry's kind and name, a link where it still has a page, its state, and its changes as sentences."""
    # A house has no page of its own, and what is gone has none any more.
    gone = each.state == "gone" or each.kind == "house"
    return (
        f"{KIND_NAMES[each.kind]}: {each.name}",
        None if gone else relative(entry_address(each.kind, each.id), RELEASE_ADDRESS),
        "" if each.state == "changed" else f"{each.state.capitalize()}.",
        [fact_sentence(fact) for fact in each.facts],
    )
