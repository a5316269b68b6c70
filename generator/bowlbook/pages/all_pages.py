"""Which pages a book has: the makers of all of them, each with its inputs.

What a maker's function looks up in the book is recorded; a page cannot depend on anything else that was not
passed as an input (`bowlbook.pages.maker`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from bowlbook.book.book import Book
from bowlbook.book.current import current, current_ids, ids_by_name
from bowlbook.pages import makers as piece
from bowlbook.pages.cards.deck import class_deck, house_decks
from bowlbook.pages.facet_value import FACET_VALUES
from bowlbook.pages.maker import Maker, Need
from bowlbook.wording.entry import KIND_TITLES

if TYPE_CHECKING:  # of types alone: not every book has them
    from bowlbook.book.price_history import Histories
    from bowlbook.pages.release_page import Since

TO_MATCH = (piece.PRACTICE, piece.PRACTICE)


def makers_of(
    book: Book, since: Since | None = None, site_url: str = "", prices: Histories | None = None
) -> list[Maker]:
    """The makers of all pages of a book without errors, overviews first, decks of cards last.

    ``prices``: of products whose price has changed, by id: for the team only.
    ``since``: the last release and what changed after it. ``site_url``: the site that QR codes on cards lead
    to; without one there are no codes.
    """
    makers = list(_overviews(book, since))
    makers += _matching(book)
    makers.append(_maker("coverage", "makers.lists:coverage", needs=[TO_MATCH]))
    to_facet = [TO_MATCH, (piece.SITUATIONS, piece.SITUATIONS)]
    makers.append(_maker(piece.SITUATIONS, "makers.matching:situations"))
    makers += [
        _maker(value.address, "makers.matching:facet", value, needs=to_facet) for value in FACET_VALUES
    ]
    makers += _of_each(book, "situation", "makers.matching:situation", needs=[TO_MATCH])
    makers += _of_each(book, "blend", "makers.blend:blend", site_url)
    makers += _of_each(book, "technique", "makers.technique:technique", site_url)
    makers += [
        _maker(f"product/{each}", "product_page:product_pages", each, (prices or {}).get(each, ()))
        for each in current_ids(book.products)
    ]
    makers += _of_each(book, "trouble", "trouble_page:trouble_page")
    makers += _of_each(book, "class", "makers.class_notes:class_notes")
    makers += [
        _maker(f"retired/{kind}/{each}", "retired_page:retired_page", kind, each)
        for kind, each in book.retired
    ]
    return makers + list(_decks(book))


def manual_makers() -> list[Maker]:
    """The makers of the pages of the manual that are made from the program: every finding, every field."""
    return [
        _maker("findings/index", "reference_page:findings_page"),
        _maker("findings", "reference_page:finding_pages"),
        _maker("fields", "reference_page:fields_page"),
    ]


def safety_maker() -> Maker:
    """The maker of the safety page, for a house without one of its own."""
    return _maker("safety", "safety_page:safety_page")


def _overviews(book: Book, since: Since | None) -> Iterator[Maker]:
    yield _maker("home", "overview_page:home_page")
    for kind in KIND_TITLES:
        if kind in piece.LISTED_BY_NAME:
            listed = [(f"{kind}/{each}", piece.LISTED) for each in ids_by_name(book.of_kind(kind))]
            yield _maker(f"index/{kind}", "makers.lists:listed", kind, needs=listed)
        else:
            yield _maker(f"index/{kind}", "overview_page:index_pages", kind)
    yield _maker("changes", "overview_page:changes_page", since.release if since else None)
    if since:
        yield _maker("release", "release_page:release_page", since)
    rows = [(f"blend/{each}", piece.ROWS) for each in ids_by_name(book.blends)]
    yield _maker("weighing", "makers.lists:weighing", needs=rows)
    if book.priced:
        services = [(f"technique/{each}", piece.SERVICE) for each in current_ids(book.techniques)]
        yield _maker("costs", "makers.lists:costs", len(rows), needs=[*rows, *services])
    yield _maker("dates", "date_report:date_report")
    yield _maker("heads", "facet_page:heads_pages")
    yield _maker("timing-log", "timing_log_page:timing_log_page")
    tried = [(f"blend/{each}", piece.TRIED) for each in current_ids(book.blends)]
    yield _maker(piece.TRY, "makers.phone_data:try_blend", needs=tried)
    yield _maker("decks", "overview_page:decks_pages")


def _matching(book: Book) -> Iterator[Maker]:
    """What is matched with a head, and Pick by hair."""
    recipes = [
        (f"{kind}/{entry_id}", piece.RECIPES)
        for kind, entries in (("blend", book.blends), ("technique", book.techniques))
        for entry_id in current_ids(entries)
    ]
    blends = current_ids(book.blends)
    shares = [(f"blend/{entry_id}", piece.SHARE) for entry_id in blends]
    yield _maker(piece.PRACTICE, "makers.matching:practice", len(shares), needs=[*shares, *recipes])
    bowls = [(f"blend/{entry_id}", piece.BOWL) for entry_id in blends]
    yield _maker(piece.PICK, "makers.phone_data:pick_by_hair", blends, needs=[TO_MATCH, *bowls, *recipes])


def _decks(book: Book) -> Iterator[Maker]:
    """The cards of the house together, and of the classes."""
    for deck in [*house_decks(book), *(class_deck(book, each) for each in current(book.classes).values())]:
        needs = [(f"{kind}/{entry_id}", piece.CARD) for kind, entry_id in deck.entries]
        yield _maker(deck.address, "cards.deck:deck_of", deck.address, deck.title, needs=needs)


def _of_each(
    book: Book, kind: str, function: str, *inputs: object, needs: Sequence[Need] | None = None
) -> Iterator[Maker]:
    """The makers of each entry in use of a kind: the function gets its id before the inputs."""
    for each in current_ids(book.of_kind(kind)):
        yield _maker(f"{kind}/{each}", function, each, *inputs, needs=needs)


def _maker(name: str, function: str, *inputs: object, needs: Sequence[Need] | None = None) -> Maker:
    """A maker whose function is given from this room."""
    return Maker(name, f"bowlbook.pages.{function}", *inputs, needs=needs)
