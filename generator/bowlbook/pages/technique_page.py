"""A technique's page: steps, bowls with what the scale shows, the timer; then, folded, lists and reasons."""

from itertools import groupby
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Developer
from bowlbook.entries.technique import Technique
from bowlbook.figures.bowl import ladder_of, mix
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.time_on_hair import time_on_hair
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.cards.card import card_address
from bowlbook.pages.closing import closing_of
from bowlbook.pages.drawing import Drawing, strand_drawing, zone_name
from bowlbook.pages.free_text import free_text
from bowlbook.pages.good_for import good_for
from bowlbook.pages.head import head_drawing
from bowlbook.pages.link_list import link_to, used_in_short, where_used
from bowlbook.pages.page import Page
from bowlbook.pages.picture import shown_pictures
from bowlbook.pages.placement import placement_drawings
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.pages.service_sheet import FIRST, Mixing, Sheet, Sheets, service_address
from bowlbook.pages.trouble_page import trouble_links
from bowlbook.pages.vessel import LETTERS
from bowlbook.pages.withdrawn import withdrawn_links
from bowlbook.reading.amount import Count, counted, plain
from bowlbook.wording.listing import both
from bowlbook.wording.locale_format import LocaleFormat
from bowlbook.wording.time_on_hair import LAST_RINSED, time_facts, timer_start, times_by_density


class TechniqueBowlRow(NamedTuple):
    """One bowl of a technique. ``place``: where it goes, the first sentence of ``where``. ``size``: the batch
    that ``readings`` are for: letters, names, what is shown. ``hair``: the hair that this batch is for; None
    where the amount is not worked out, and the size is the smallest.

    ``cautions``: its blend's; none where a bowl of the same blend is listed before it.
    """

    name: str
    href: str
    where: str
    place: str
    size: str
    hair: str | None
    unit: str
    readings: list[tuple[str, str, str]]
    facts: list[tuple[str, str]]
    cautions: tuple[str, ...]
    drawing: Drawing | None


class Amount(NamedTuple):
    """One hair amount in short: each time a bowl is mixed as ``blend: batch + batch``, and the costs.

    ``refusal`` says why it is not planned.
    """

    hair: str
    refusal: str | None
    bowls: tuple[str, ...]
    cost: str | None


COMMON = (("short", "medium"), ("medium", "medium"), ("long", "medium"), ("long", "thick"))
"""The hair amounts that most heads are near to: length and density."""


def technique_page(book: Book, technique: Technique, sheets: Sheets, formats: LocaleFormat) -> Page:
    """The finished page of a technique."""
    address = entry_address("technique", technique.id)
    used = where_used(book, "technique", technique, address)
    placed, placed_at_step = placement_drawings(technique.drawings)
    withdrawn = withdrawn_links(book, technique, address)
    body = render(
        "technique.html",
        address,
        technique=technique,
        withdrawn=withdrawn,
        bowls=[_bowl(book, technique, place, address, sheets) for place in range(len(technique.bowls))],
        amounts=[_amount(each) for each in sheets.sheets if (each.length, each.density) in COMMON],
        waste=sheets.waste,
        unplanned=sheets.refusal,
        unmeasured=sheets.unmeasured,
        service=relative(service_address(technique), address) if sheets.sheets else None,
        card=None if withdrawn else relative(card_address("technique", technique.id), address),
        drawing=head_drawing(technique.sections, technique.drawings, "head"),
        placed=placed,
        placed_at_step=placed_at_step,
        processing=_processing(book, technique),
        timer=timer_start(technique, time_on_hair(book, technique)),
        supplies=[
            link_to("product", book.products[each.product], address, str(Count(each.count)))
            for each in technique.supplies
        ],
        troubles=trouble_links(book, technique, address),
        notes=free_text(technique.notes),
        used=used,
        used_by=used_in_short((group.title, group.items) for group in used),
        **good_for(book, "technique", technique, address),
        **shown_pictures(book, technique, address),
        **closing_of(book, technique, formats),
    )
    lead = technique.summary or technique.section_pattern
    return Page(address, technique.name, lead, body, search=search_entry(book, "technique", technique))


def _processing(book: Book, technique: Technique) -> list[tuple[str, str]]:
    """The times of the head that the technique was measured on, and of other densities."""
    time = time_on_hair(book, technique)
    rows = [row for row in time_facts(technique, time, technique.hands) if row[0] != LAST_RINSED]
    by_density = times_by_density(book, technique)
    rows += [(LAST_RINSED, by_density)] if by_density else []
    return [*rows, ("Check every", counted(technique.processing.check_every, "minute"))]


def _amount(sheet: Sheet) -> Amount:
    lines = []
    for bowl in sheet.bowls:
        for (sizes, share), alike in groupby(bowl.mixings, key=lambda each: (_sizes(each), each.share)):
            first, *more = alike
            if not sizes:
                lines.append(first.cannot or "")
            elif more:
                lines.append(f"{bowl.name}: {sizes}, mixed fresh {len(more) + 1} times. Each time {share}")
            else:
                lines.append(f"{bowl.name}: {sizes}. {first.which}, {share}")
    cost = None
    if sheet.total:
        shares = ", ".join(f"{cost} {what}" for what, cost in sheet.of_total)
        cost = f"{sheet.total}{sheet.without}, supplies included" + (f"; of it {shares}" if shares else "")
    return Amount(sheet.hair, sheet.refusal, tuple(lines), cost)


def _sizes(mixing: Mixing) -> str:
    """The batches of one fresh bowl: ``1.00 oz + 0.50 oz``."""
    return " + ".join(f"{out.batch} {out.unit}" for out in mixing.weigh_outs for _ in range(out.times))


def _bowl(book: Book, technique: Technique, place: int, start: str, sheets: Sheets) -> TechniqueBowlRow:
    bowl = technique.bowls[place]
    blend = book.blends[bowl.blend]
    developer = book.developer(bowl.developer or blend.developer.product)
    facts = [
        ("Developer", f"{developer.name}, {blend.developer.ratio}"),
        ("Goes on", both([zone_name(zone) for zone in bowl.zones])),
    ]
    if bowl.sections is not None:
        facts.append(("Sections", str(bowl.sections)))
    if bowl.mix_per_section is not None:
        facts.append(("Mix per section", f"{bowl.mix_per_section}, developer included"))
    if bowl.minutes_per_section is not None:
        facts.append(("Minutes per section", plain(bowl.minutes_per_section)))
    if bowl.backcomb is not None:
        facts.append(("Backcombed away", f"{plain(bowl.backcomb)} %"))
    href = relative(entry_address("blend", blend.id), start)
    drawing = None if blend.tones else strand_drawing(bowl, technique.placement, f"strand-{place + 1}")
    seen = blend.id in [each.blend for each in technique.bowls[:place]]
    size, unit, hair, readings = _first_weigh_out(book, blend, developer, place, sheets)
    cautions = () if seen else blend.cautions
    at = bowl.where.partition(". ")[0].rstrip(".")
    return TechniqueBowlRow(
        blend.name, href, bowl.where, at, size, hair, unit, readings, facts, cautions, drawing
    )


def _first_weigh_out(
    book: Book, blend: Blend, developer: Developer, place: int, sheets: Sheets
) -> tuple[str, str, str | None, list[tuple[str, str, str]]]:
    """What is weighed first of a bowl: for hair of medium length and density, else the blend's first size.

    Gives the batch, the unit, the hair, and of each pour its letter, its name and what the scale shows.
    """
    medium = next((each for each in sheets.sheets if (each.length, each.density) == FIRST), None)
    planned = medium.bowls[place].mixings if medium and len(medium.bowls) > place else ()
    out = next((out for mixing in planned for out in mixing.weigh_outs), None)
    if out is not None and medium is not None:
        rows = [(name, shows) for _, name, _, shows in out.lines]
        size, unit, hair = f"{out.batch}\u00a0{out.unit}", out.unit, medium.hair.lower()
    else:
        unit, batch, step = ladder_of(book, blend)[0]
        bowl = mix(book, blend, unit, batch, step, developer)
        rows = [(each.product.name, fixed(each.scale_shows, decimals_of(step))) for each in bowl.pours]
        size, hair = f"{plain(batch)}\u00a0{unit}", None
    return size, unit, hair, [(letter, *row) for letter, row in zip(LETTERS, rows, strict=False)]
