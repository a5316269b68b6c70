"""Which pages a book has: the makers of all of them, each with its inputs.

What a maker's function looks up in the book is recorded; a page cannot depend on anything else that was not
passed as an input (`bowlbook.pages.maker`).
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.current import current, current_ids, ids_by_name, retired_keys
from bowlbook.book.price_history import Price
from bowlbook.figures.candidate import candidates_in_order, is_lightening
from bowlbook.figures.house_unit import weight_units
from bowlbook.figures.proportion import developer_share
from bowlbook.figures.verdict import Practice, practice_with
from bowlbook.figures.withdrawn import retired_in, withdrawn_recipes
from bowlbook.pages.asset import compact, data_name
from bowlbook.pages.blend_page import blend_page
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.pages.cards.card import card_of
from bowlbook.pages.cards.deck import class_deck, deck_of, house_decks
from bowlbook.pages.cards.strand_slip import strand_slip
from bowlbook.pages.class_page import class_page, handout_page
from bowlbook.pages.cost_report import cost_report
from bowlbook.pages.coverage_page import coverage_pages
from bowlbook.pages.date_report import date_report
from bowlbook.pages.facet_page import SituationIndex, facet_page, heads_pages, situation_index
from bowlbook.pages.facet_value import FACET_VALUES, FacetValue
from bowlbook.pages.link_list import LinkItem
from bowlbook.pages.maker import Maker, Output, Shared, piece_of
from bowlbook.pages.overview_page import (
    changes_page,
    decks_pages,
    home_page,
    index_pages,
    list_pages,
    listed_item,
)
from bowlbook.pages.page import Document, Piece
from bowlbook.pages.pick_data import pick_data
from bowlbook.pages.pick_page import pick_page
from bowlbook.pages.pick_recipe import first_bowl, shown_from
from bowlbook.pages.product_page import product_pages
from bowlbook.pages.reference_page import fields_page, finding_pages, findings_page
from bowlbook.pages.release_page import Since, release_page
from bowlbook.pages.report_page import (
    BowlReportRow,
    ServiceReportRow,
    bowl_report_rows,
    service_report_row,
)
from bowlbook.pages.retired_page import retired_page
from bowlbook.pages.safety_page import safety_page
from bowlbook.pages.service_sheet import opened_first, service_page, sheets_of
from bowlbook.pages.situation_page import situation_page
from bowlbook.pages.technique_page import technique_page
from bowlbook.pages.timing_log_page import timing_log_page
from bowlbook.pages.trouble_page import trouble_page
from bowlbook.pages.try_data import recipe_data, try_data
from bowlbook.pages.try_page import try_page
from bowlbook.pages.weighing_report import weighing_report
from bowlbook.wording.entry import KIND_TITLES
from bowlbook.wording.locale_format import locale_format_of

PICK, PRACTICE, TRY = "pick", "practice", "try"
ROWS, BOWL, RECIPES, SHARE, CARD, TRIED = "rows", "bowl", "recipes", "share", "card", "tried"
SERVICE = "service"
"""Pieces of entries: rows of the reports on bowls, the smallest bowl, what heads are matched with, card, the
recipe for Try a blend, the row of a service in the report on costs."""
LISTED = "listed"
"""The piece of an entry that the list of its kind shows, for the kinds of `LISTED_BY_NAME`."""
LISTED_BY_NAME = ("blend", "technique", "class")
"""Kinds whose list is plainly by name: an edit makes it again only where what it shows is another."""
TO_MATCH = piece_of(PRACTICE, PRACTICE)


def makers_of(
    book: Book,
    since: Since | None = None,
    site_url: str = "",
    prices: Mapping[str, tuple[Price, ...]] | None = None,
) -> list[Maker]:
    """The makers of all pages of a book without errors, overviews first, cards and decks last.

    ``prices``: of products whose price has changed, by id: for the team only.
    ``since``: the last release and what changed after it. ``site_url``: the site that QR codes on cards lead
    to; without one there are no codes.
    """
    situations = Shared(situation_index(book))
    makers = list(_overviews(book, since))
    makers += _matching(book)
    makers.append(Maker("coverage", _coverage, needs=[TO_MATCH]))
    makers += [Maker(value.address, _facet, situations, value, needs=[TO_MATCH]) for value in FACET_VALUES]
    makers += [
        Maker(f"situation/{each}", _situation, each, needs=[TO_MATCH])
        for each in current_ids(book.situations)
    ]
    makers += [Maker(f"blend/{each}", _blend, each) for each in current_ids(book.blends)]
    makers += [Maker(f"technique/{each}", _technique, each) for each in current_ids(book.techniques)]
    makers += [
        Maker(f"product/{each}", product_pages, each, (prices or {}).get(each, ()))
        for each in current_ids(book.products)
    ]
    makers += [Maker(f"trouble/{each}", trouble_page, each) for each in current_ids(book.troubles)]
    makers += [Maker(f"class/{each}", _class, each) for each in current_ids(book.classes)]
    makers += [Maker(f"retired/{kind}/{each}", retired_page, kind, each) for kind, each in retired_keys(book)]
    return makers + list(_cards(book, site_url))


def manual_makers() -> list[Maker]:
    """The makers of the pages of the manual that are made from the program: every finding, every field."""
    return [
        Maker("findings/index", findings_page),
        Maker("findings", finding_pages),
        Maker("fields", fields_page),
    ]


def safety_maker() -> Maker:
    """The maker of the safety page, for a house without one of its own."""
    return Maker("safety", safety_page)


def _overviews(book: Book, since: Since | None) -> Iterator[Maker]:
    yield Maker("home", home_page)
    for kind in KIND_TITLES:
        if kind in LISTED_BY_NAME:
            listed = [piece_of(f"{kind}/{each}", LISTED) for each in ids_by_name(book.of_kind(kind))]
            yield Maker(f"index/{kind}", _index, kind, needs=listed)
        else:
            yield Maker(f"index/{kind}", index_pages, kind)
    yield Maker("changes", changes_page, since.release if since else None)
    if since:
        yield Maker("release", release_page, since)
    rows = [piece_of(f"blend/{each}", ROWS) for each in ids_by_name(book.blends)]
    yield Maker("weighing", _weighing, needs=rows)
    if book.priced:
        services = [piece_of(f"technique/{each}", SERVICE) for each in current_ids(book.techniques)]
        yield Maker("costs", _costs, len(rows), needs=[*rows, *services])
    yield Maker("dates", date_report)
    yield Maker("heads", heads_pages)
    yield Maker("timing-log", timing_log_page)
    yield Maker(TRY, _try, needs=[piece_of(f"blend/{each}", TRIED) for each in current_ids(book.blends)])
    yield Maker("decks", decks_pages)


def _matching(book: Book) -> Iterator[Maker]:
    """What is matched with a head, and Pick by hair."""
    recipes = [
        piece_of(f"{kind}/{entry_id}", RECIPES)
        for kind, entries in (("blend", book.blends), ("technique", book.techniques))
        for entry_id in current_ids(entries)
    ]
    blends = current_ids(book.blends)
    shares = [piece_of(f"blend/{entry_id}", SHARE) for entry_id in blends]
    yield Maker(PRACTICE, _practice, len(shares), needs=[*shares, *recipes])
    bowls = [piece_of(f"blend/{entry_id}", BOWL) for entry_id in blends]
    yield Maker(PICK, _pick_by_hair, blends, needs=[TO_MATCH, *bowls, *recipes])


def _cards(book: Book, site_url: str) -> Iterator[Maker]:
    """Every card, then the decks of the house and of the classes; none of what is not to be mixed."""
    withdrawn = withdrawn_recipes(book)
    for kind, entries in (("blend", book.blends), ("technique", book.techniques)):
        for entry_id in entries:
            if (kind, entry_id) not in withdrawn:
                yield Maker(_card_name(kind, entry_id), _card, kind, entry_id, site_url)
    for deck in [*house_decks(book), *(class_deck(book, each) for each in current(book.classes).values())]:
        needs = [piece_of(_card_name(*key), CARD) for key in deck.entries]
        yield Maker(deck.address, deck_of, deck.address, deck.title, needs=needs)


def _card_name(kind: str, entry_id: str) -> str:
    return f"card/{kind}/{entry_id}"


def _index(book: Book, kind: str, pieces: Sequence[LinkItem]) -> Iterator[Output]:
    return list_pages(kind, pieces)


def _weighing(book: Book, pieces: Sequence[list[BowlReportRow]]) -> Iterator[Output]:
    return weighing_report(book.house.rounding_tolerance, [row for rows in pieces for row in rows])


def _costs(book: Book, count: int, pieces: Sequence[Any]) -> Iterator[Output]:
    """``count``: of the pieces that are rows of a blend's bowls; the others are of a technique's service."""
    bowls: list[BowlReportRow] = [row for rows in pieces[:count] for row in rows]
    services: list[ServiceReportRow] = [row for row in pieces[count:] if row is not None]
    return cost_report(book, locale_format_of(book), bowls, services)


def _try(book: Book, pieces: Sequence[dict[str, Any]]) -> Iterator[Output]:
    """The data of Try a blend, in a file named by its digest, and the page."""
    data = compact(try_data(book, pieces, locale_format_of(book)))
    address = f"data/{data_name(TRY, data)}"
    yield Document(address, data)
    yield try_page(address, weight_units(book.house)[0])


def _practice(book: Book, count: int, pieces: Sequence[Any]) -> Iterator[Output]:
    """What every head is matched with. ``count``: of the developer shares before the recipes."""
    shares = [each for each in pieces[:count] if each is not None]
    found = candidates_in_order(shown.candidate for recipes in pieces[count:] for shown in recipes)
    lightening, toning = ([each for each in found if each.tones == tones] for tones in (False, True))
    yield Piece(PRACTICE, practice_with(book, lightening, toning, shares))


def _pick_by_hair(book: Book, blends: list[str], pieces: Sequence[Any]) -> Iterator[Output]:
    """The data of Pick by hair, in a file named by its digest, and the page."""
    practice, *rest = pieces
    bowls = {each: bowl for each, bowl in zip(blends, rest, strict=False) if bowl is not None}
    recipes = [shown for found in rest[len(blends) :] for shown in found]
    data = compact(pick_data(practice, recipes, bowls))
    address = f"data/{data_name(PICK, data)}"
    yield Document(address, data)
    yield pick_page(address, practice)


def _coverage(book: Book, pieces: Sequence[Practice]) -> Iterator[Output]:
    return coverage_pages(book, pieces[0].lightening)


def _facet(
    book: Book, situations: SituationIndex, value: FacetValue, pieces: Sequence[Practice]
) -> Iterator[Output]:
    yield facet_page(book, pieces[0], situations, value)


def _situation(book: Book, entry_id: str, pieces: Sequence[Practice]) -> Iterator[Output]:
    yield situation_page(book, book.situations[entry_id], pieces[0], locale_format_of(book))


def _blend(book: Book, entry_id: str) -> Iterator[Output]:
    blend, formats = book.blends[entry_id], locale_format_of(book)
    panels = panels_of(book, blend, formats)
    yield blend_page(book, blend, panels, formats)
    if not retired_in(book, blend):
        yield strand_slip(book, blend)
    yield Piece(ROWS, bowl_report_rows(blend, panels))
    yield Piece(BOWL, None if blend.tones else first_bowl(panels))
    yield Piece(RECIPES, shown_from(book, "blend", entry_id))
    yield Piece(SHARE, developer_share(blend) if is_lightening(book, blend) else None)
    yield Piece(TRIED, recipe_data(blend))
    yield Piece(LISTED, listed_item(book, "blend", blend))


def _technique(book: Book, entry_id: str) -> Iterator[Output]:
    technique, formats = book.techniques[entry_id], locale_format_of(book)
    sheets = sheets_of(book, technique, formats)
    yield technique_page(book, technique, sheets, formats)
    if sheets.sheets:
        yield service_page(technique, sheets)
    row = service_report_row(technique, opened_first(sheets.sheets)) if sheets.sheets else None
    yield Piece(SERVICE, row)
    yield Piece(RECIPES, shown_from(book, "technique", entry_id))
    yield Piece(LISTED, listed_item(book, "technique", technique))


def _class(book: Book, entry_id: str) -> Iterator[Output]:
    notes = book.classes[entry_id]
    yield class_page(book, notes, locale_format_of(book))
    yield handout_page(book, notes)
    yield Piece(LISTED, listed_item(book, "class", notes))


def _card(book: Book, kind: str, entry_id: str, site_url: str) -> Iterator[Output]:
    entry = book.blends[entry_id] if kind == "blend" else book.techniques[entry_id]
    return card_of(book, kind, entry, locale_format_of(book), site_url)
