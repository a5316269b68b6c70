"""One blend or technique on one card of A6 or 4 x 6 inches. No prices on it."""

import re
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from markupsafe import Markup, escape

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.cards.print_document import print_document
from bowlbook.pages.drawing import Drawing, bowl_drawing
from bowlbook.pages.page import Document, Piece
from bowlbook.pages.placement import named_drawings
from bowlbook.pages.render import finished, render
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.caution import USUAL_SHORT
from bowlbook.wording.entry import recipe_of
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.listing import both
from bowlbook.wording.locale_format import LocaleFormat
from bowlbook.wording.stamp import review_stamp
from bowlbook.wording.time_on_hair import LAST_RINSED, counted_from, times_by_density

COLUMNS = 5
"""Sizes of a bowl side by side on a card."""
MASK, DARK = 3, re.compile(b"\0+")
"""Of QR codes: the number of the mask, and a run of dark modules. The quiet zone ends each in its row."""
ROOMY, FULL = 900, 1500
"""Characters on a card up to which its type stays large, and up to which it is small rather than smallest."""
DRAWN, MOST_DRAWN, PACKED = 260, 5, 1900
"""How many characters a row of drawings takes the room of, how many stand in it, and with how many not."""


class CardTable(NamedTuple):
    """Sizes side by side: for each pour what to weigh and what the scale shows."""

    unit: str
    sizes: tuple[str, ...]
    rows: tuple[tuple[str, tuple[tuple[str, str], ...]], ...]


def card_address(kind: str, entry_id: str) -> str:
    """The address of one entry's card."""
    return f"{entry_address(kind, entry_id)}card/"


def card_of(
    book: Book, entry: Blend | Technique, formats: LocaleFormat, site_url: str, bowls: Sequence[Bowl] = ()
) -> Iterator[Document | Piece]:
    """An entry's card, in a document of its own and as a piece of decks.

    ``site_url``: what QR codes lead to; empty, and there are none. ``bowls``: a blend's, of `bowls_of`.
    """
    kind = "blend" if isinstance(entry, Blend) else "technique"
    address = card_address(kind, entry.id)
    card = finished(_card(book, kind, entry, formats, site_url, bowls))
    back = relative(entry_address(kind, entry.id), address)
    yield print_document(book, address, entry.name, [card], back)
    yield Piece("card", card)


def _card(
    book: Book, kind: str, entry: Blend | Technique, formats: LocaleFormat, site: str, mixed: Sequence[Bowl]
) -> str:
    """The card as HTML. ``fit`` is how small its type must be: roomy, full or tight."""
    web_address = f"{site.rstrip('/')}/{entry_address(kind, entry.id)}" if site else None
    anchor = f"{kind}-{entry.id}"
    suits = facet_sentence(entry.suits) or "any head"
    stamp = review_stamp(book, entry, formats)
    tables: list[CardTable] = []
    bar = None
    facts: list[tuple[str, str]] = []
    bowls: list[tuple[str, str]] = []
    steps: tuple[str, ...] = ()
    drawn: list[tuple[str, Drawing]] = []
    if isinstance(entry, Blend):
        tables = list(_tables(mixed))
        bar = bowl_drawing(mixed[0], f"bar-{anchor}")
        lead = recipe_of(book, entry)
        facts.append(("Peroxide in the bowl", f"{fixed(mixed[-1].peroxide, 2)} %"))
        if entry.fresh_for:
            facts.append(("Stays fresh for", counted(entry.fresh_for, "minute")))
    else:
        lead = f"{entry.placement.capitalize()}. {entry.section_pattern}"
        bowls = [_bowl_line(book, entry, place) for place in range(len(entry.bowls))]
        steps = entry.steps
        watch = entry.processing
        facts.append(("Processing", f"at most {counted(watch.minutes, 'minute')} {counted_from(entry)}"))
        by_density = times_by_density(book, entry)
        facts += [(LAST_RINSED, by_density)] if by_density else []
        facts.append(("Check every", f"{counted(watch.check_every, 'minute')}. {watch.stop_when}"))
    # Measured by eye on printed cards: a row of a table takes about the room of 140 characters.
    signs = sum(map(len, (lead, suits, *entry.cautions, *steps, *(text for pair in facts for text in pair))))
    signs += sum(len(name) + len(text) for name, text in bowls) + sum(140 * len(each.rows) for each in tables)
    if isinstance(entry, Technique) and entry.drawings and signs + DRAWN <= PACKED:
        signs += DRAWN
        drawn = named_drawings(entry.drawings, small=True)[:MOST_DRAWN]
    return render(
        "cards/card.html",
        card_address(kind, entry.id),
        name=entry.name,
        lead=lead,
        anchor=anchor,
        tables=tables,
        bar=bar,
        facts=facts,
        bowls=bowls,
        steps=steps,
        drawn=drawn,
        cautions=entry.cautions,
        usual=USUAL_SHORT,
        suits=suits,
        reviewed=stamp.day if stamp else None,
        web_address=web_address,
        qr=_qr(web_address) if web_address else None,
        fit="roomy" if signs <= ROOMY else "full" if signs <= FULL else "tight",
        house=book.house.title,
        notice=book.house.notice,
    )


def _bowl_line(book: Book, technique: Technique, place: int) -> tuple[str, str]:
    bowl = technique.bowls[place]
    blend = book.blends[bowl.blend]
    sentences = [bowl.where]
    if bowl.sections is not None and bowl.mix_per_section is not None:
        times = "" if bowl.sections == 1 else f"{bowl.sections} × "
        sentences.append(f"{times}{bowl.mix_per_section}.".replace(" ", "\u00a0"))
    if bowl.backcomb is not None:
        sentences.append(f"{plain(bowl.backcomb)}\u00a0% backcombed away.")
    zones = f"zone {both(list(bowl.zones))}"
    return f"{blend.name}, {zones}", " ".join(sentences)


def _tables(mixed: Sequence[Bowl]) -> Iterator[CardTable]:
    """The ladder, unit by unit, at most `COLUMNS` sizes side by side."""
    for unit in dict.fromkeys(bowl.unit for bowl in mixed):
        own = [bowl for bowl in mixed if bowl.unit == unit]
        for start in range(0, len(own), COLUMNS):
            yield _table(unit, own[start : start + COLUMNS])


def _table(unit: str, bowls: Sequence[Bowl]) -> CardTable:
    places = decimals_of(bowls[0].step)  # bowls in one unit are weighed on one scale
    columns = [bowl.shown for bowl in bowls]
    rows = [(product.name, tuple(cells)) for product, *cells in zip(bowls[0].products, *columns, strict=True)]
    sizes = tuple(fixed(bowl.batch, places) for bowl in bowls)
    return CardTable(unit, sizes, tuple(rows))


def _qr(address: str) -> Markup:
    """The address as a QR code (ISO/IEC 18004) with its quiet zone of four modules.

    Error correction M, or Q where the code grows no larger by it. One of the standard's eight masks for all:
    trying which looks best takes six times as long, and any reader reads each of them.
    """
    from zxingcpp import BarcodeFormat, create_barcode

    # Level M still reads with 15 % of the code damaged, level Q with 25 %: cards get wet.
    levels = [create_barcode(address, BarcodeFormat.QRCode, ec_level=each, data_mask=MASK) for each in "QM"]
    image: Any = min((each.to_image() for each in levels), key=lambda each: each.shape)
    size = image.shape[0]
    return finished(
        f'<svg viewBox="0 0 {size} {size}" class="bb-qr"><title>{escape(address)}</title>'
        f'<path stroke="#000" d="{_path(bytes(image), size)}"/></svg>'
    )


def _path(modules: bytes, size: int) -> str:
    """The dark modules as an SVG path: a line along each run of them, and moves between these lines."""
    at = 0
    lines = ["M0 .5"]
    for start, end in [run.span() for run in DARK.finditer(modules)]:
        down = start // size - at // size
        lines.append(f"m{start - at - down * size} {down}h{end - start}")
        at = end
    return "".join(lines)
