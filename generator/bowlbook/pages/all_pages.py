"""Which pages a book has, and for each what makes it and what it is made from."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import astuple, dataclass
from functools import partial

from markupsafe import Markup

from bowlbook.book.book import Book
from bowlbook.figures.head import head_of
from bowlbook.figures.ruling import Clause
from bowlbook.figures.verdict import Practice, practice_of
from bowlbook.pages.asset import compact, data_name
from bowlbook.pages.blend_page import blend_page
from bowlbook.pages.bowl_panel import panels_of
from bowlbook.pages.cards.card import card_of
from bowlbook.pages.cards.deck import Deck, class_deck, deck_of, house_decks
from bowlbook.pages.cards.strand_slip import strand_slip
from bowlbook.pages.class_page import class_page, handout_page
from bowlbook.pages.coverage_page import coverage_page
from bowlbook.pages.facet_page import (
    FACET_VALUES,
    FacetValue,
    SituationIndex,
    facet_page,
    heads_pages,
    situation_index,
)
from bowlbook.pages.overview_page import changes_page, decks_pages, home_page, index_pages
from bowlbook.pages.page import Document, Page, Piece
from bowlbook.pages.pick_data import FirstBowl, first_bowl, pick_data
from bowlbook.pages.pick_page import pick_page
from bowlbook.pages.product_page import product_pages
from bowlbook.pages.reference_page import fields_page, finding_pages, findings_page
from bowlbook.pages.release_page import Since, release_page
from bowlbook.pages.report_page import BowlReportRow, bowl_report_rows, bowl_reports, date_reports
from bowlbook.pages.service_sheet import service_page, sheets_of
from bowlbook.pages.situation_page import situation_page
from bowlbook.pages.technique_page import technique_page
from bowlbook.pages.timing_log_page import timing_log_page
from bowlbook.pages.trouble_page import trouble_page
from bowlbook.wording.entry import KIND_TITLES, name_of
from bowlbook.wording.locale_format import LocaleFormat

PICK = "pick"
Output = Page | Document | Piece


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes some of a book's pages and documents, independently of other makers, in any process and order.

    The cache decides from these fields whether the output of an earlier build is still valid:

    ``name``: unique in a book; the cache key. ``make``: takes the book and looks up in it whatever it needs;
    those lookups are recorded as dependencies. ``given``: every input of ``make`` that it does not look up
    in the book (closed over, or bound by `partial`), as a text that differs whenever that input does.
    ``needs``: names of makers whose `Piece` values ``make`` takes as its second argument, in this order.
    """

    name: str
    make: Callable[..., Iterable[Output]]
    given: str = ""
    needs: tuple[str, ...] = ()


def makers_of(book: Book, since: Since | None = None, site_url: str = "") -> list[Maker]:
    """The makers of all pages of a book without errors, overviews first, cards and decks last.

    ``since``: the last release and what changed after it. ``site_url``: the site that QR codes on cards lead
    to; without one there are no codes. Every maker also depends on the house and on whether the book has
    prices: `LocaleFormat` is made from those, so it need not be in ``given``.
    """
    formats = LocaleFormat(book.house, priced=book.priced)
    practice, situations = practice_of(book), situation_index(book)
    # Matching sees the stops and recipes of the whole book, which no lookup records: they are given as text.
    matching, listed = _practice_text(practice), _situations_text(situations)
    makers = list(_overviews(book, since, formats))
    makers.append(_pick(book, practice, matching))
    makers.append(Maker("coverage", lambda book: [coverage_page(book, practice.lightening)], matching))
    makers += [
        Maker(value.address, partial(_of_facet, practice, situations, value), matching + listed)
        for value in FACET_VALUES
    ]
    makers.append(Maker("findings", lambda book: finding_pages()))
    makers += [
        Maker(f"situation/{each}", partial(_of_situation, practice, formats, each), matching)
        for each in book.situations
    ]
    makers += [Maker(f"blend/{each}", partial(_of_blend, formats, each)) for each in book.blends]
    makers += [Maker(f"technique/{each}", partial(_of_technique, formats, each)) for each in book.techniques]
    makers += [Maker(f"product/{each}", partial(_of_product, formats, each)) for each in book.products]
    makers += [Maker(f"trouble/{each}", partial(_of_trouble, formats, each)) for each in book.troubles]
    makers += [Maker(f"class/{each}", partial(_of_class, formats, each)) for each in book.classes]
    return makers + list(_cards(book, formats, site_url))


def _overviews(book: Book, since: Since | None, formats: LocaleFormat) -> Iterator[Maker]:
    release = since.release if since else None
    yield Maker("home", lambda book: [home_page(book)])
    for kind in KIND_TITLES:
        yield Maker(f"index/{kind}", lambda book, kind=kind: index_pages(book, kind))
    yield Maker("changes", lambda book: [changes_page(book, formats, release)], str(release))
    if since:
        found = since.differences
        yield Maker("release", lambda book: [release_page(book, str(release), found)], repr(since))
    by_name = sorted(book.blends.values(), key=lambda each: (each.name.casefold(), each.id))
    yield Maker("bowls", partial(_bowls, formats), needs=tuple(f"blend/{each.id}" for each in by_name))
    yield Maker("dates", lambda book: date_reports(book, formats))
    yield Maker("heads", heads_pages)
    yield Maker("findings/index", lambda book: [findings_page()])
    yield Maker("fields", lambda book: [fields_page()])
    yield Maker("timing-log", lambda book: [timing_log_page()])
    yield Maker("decks", decks_pages)


def _of_facet(
    practice: Practice, situations: SituationIndex, value: FacetValue, book: Book
) -> Iterator[Output]:
    yield facet_page(book, practice, situations, value)


def _of_situation(practice: Practice, formats: LocaleFormat, entry_id: str, book: Book) -> Iterator[Output]:
    yield situation_page(book, book.situations[entry_id], practice, formats)


def _of_blend(formats: LocaleFormat, entry_id: str, book: Book) -> Iterator[Output]:
    blend = book.blends[entry_id]
    panels = panels_of(book, blend, formats)
    yield blend_page(book, blend, panels, formats)
    yield strand_slip(book, blend, formats)
    yield Piece((bowl_report_rows(blend, panels), first_bowl(panels)))


def _bowls(
    formats: LocaleFormat, book: Book, pieces: list[tuple[list[BowlReportRow], FirstBowl]]
) -> Iterator[Output]:
    return bowl_reports(book, formats, [row for rows, _ in pieces for row in rows])


def _pick(book: Book, practice: Practice, matching: str) -> Maker:
    """The data of Pick by hair, in a file named by its digest, and the page."""
    names = {
        kind: {each.id: name_of(each) for each in book.of_kind(kind).values()}
        for kind in ("blend", "technique")
    }
    lightening = [each.id for each in book.blends.values() if not each.tones]

    def make(book: Book, pieces: list[tuple[list[BowlReportRow], FirstBowl]]) -> Iterator[Output]:
        bowls = {entry_id: bowl for entry_id, (_, bowl) in zip(lightening, pieces, strict=True)}
        data = compact(pick_data(book, practice, names, bowls))
        address = f"data/{data_name(PICK, data)}"
        yield Document(address, data)
        yield pick_page(address)

    needs = tuple(f"blend/{entry_id}" for entry_id in lightening)
    return Maker(PICK, make, matching + compact([names, lightening]), needs)


def _of_technique(formats: LocaleFormat, entry_id: str, book: Book) -> Iterator[Output]:
    technique = book.techniques[entry_id]
    sheets = sheets_of(book, technique, formats)
    yield technique_page(book, technique, sheets, formats)
    if sheets.sheets:
        yield service_page(technique, sheets)


def _of_product(formats: LocaleFormat, entry_id: str, book: Book) -> Iterator[Output]:
    yield from product_pages(book, book.products[entry_id], formats)


def _of_trouble(formats: LocaleFormat, entry_id: str, book: Book) -> Iterator[Output]:
    yield trouble_page(book, book.troubles[entry_id], formats)


def _of_class(formats: LocaleFormat, entry_id: str, book: Book) -> Iterator[Output]:
    notes = book.classes[entry_id]
    yield class_page(book, notes, formats)
    yield handout_page(book, notes)


def _cards(book: Book, formats: LocaleFormat, site_url: str) -> Iterator[Maker]:
    """Every card, then the decks of the house and of the classes."""
    for kind, entries in (("blend", book.blends), ("technique", book.techniques)):
        for entry_id in entries:
            yield Maker(
                _card_name(kind, entry_id), partial(_card, formats, site_url, kind, entry_id), site_url
            )
    for deck in [*house_decks(book), *(class_deck(book, each) for each in book.classes.values())]:
        names = tuple(_card_name(kind, entry.id) for kind, entry in deck.entries)
        yield Maker(deck.address, partial(_deck, deck), deck.title, names)


def _card_name(kind: str, entry_id: str) -> str:
    return f"card/{kind}/{entry_id}"


def _card(formats: LocaleFormat, site_url: str, kind: str, entry_id: str, book: Book) -> Iterator[Output]:
    entry = book.blends[entry_id] if kind == "blend" else book.techniques[entry_id]
    return card_of(book, kind, entry, formats, site_url)


def _deck(deck: Deck, book: Book, cards: list[Markup]) -> Iterator[Output]:
    return deck_of(book, deck, cards)


def _situations_text(situations: SituationIndex) -> str:
    """All that a facet's page shows of similar situations, as a text for ``given``."""
    return compact([[each.id, each.name, each.summary, head_of(each.hair)] for each in situations.situations])


def _practice_text(practice: Practice) -> str:
    """All that matching uses of the stops and the recipes, as a text for ``given``.

    Clauses are numbered, because many candidates share the house's.
    """
    clauses: dict[Clause, int] = {}
    rows = [
        [
            *(each.kind, each.id, each.name, each.within, each.tones, each.suits),
            [clauses.setdefault(clause, len(clauses)) for clause in each.excluded_by],
            [clauses.setdefault(clause, len(clauses)) for clause in each.preferred_by],
        ]
        for index in (practice.lightening, practice.toning)
        for each in index.candidates
    ]
    said = [[each.when, each.because, each.standing, each.instead, each.of] for each in clauses]
    return compact([rows, said, [astuple(each) for each in practice.stops]])
