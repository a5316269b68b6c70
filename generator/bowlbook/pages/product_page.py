"""A product's page: what it is, where it may go, what it costs and who uses it."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.long_texts import whole_at
from bowlbook.book.price_history import Price
from bowlbook.checks.stale_price import stale_on
from bowlbook.entries.product import Additive, Developer, Lightener, Product, Supply, Toner
from bowlbook.figures.bowl import density_of
from bowlbook.figures.cost import price_per_gram, price_per_piece
from bowlbook.figures.pigment import underlying_at
from bowlbook.figures.unit import GRAMS_PER, weight_units
from bowlbook.pages.address import entry_address
from bowlbook.pages.closing import closing_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.link_list import where_used
from bowlbook.pages.page import Page
from bowlbook.pages.pagination import paginate, render_pages
from bowlbook.pages.picture import shown_pictures
from bowlbook.pages.price_plot import history_of, per_amount, price_by_amount
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.pages.stand_in import stand_in_sentences
from bowlbook.pages.trouble_page import trouble_links
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.amount import shown_amount
from bowlbook.wording.developer import volumes
from bowlbook.wording.entry import product_note
from bowlbook.wording.listing import both, either
from bowlbook.wording.locale_format import LocaleFormat, locale_format_of
from bowlbook.wording.reason import pigment_sentence


def product_pages(book: Book, entry_id: str, prices: Sequence[Price]) -> Iterator[Page]:
    """The page of a product, and further pages where its list of uses is too long for one."""
    product, formats = whole_at(book.products, entry_id), locale_format_of(book)
    address = entry_address("product", entry_id)
    used, *further = paginate(address, where_used(book, "product", product, address))
    unit = weight_units(book.house)[0]
    body = render(
        "product.html",
        address,
        product=product,
        facts=_facts(product),
        pigment=_exposed(product),
        stand_ins=stand_in_sentences(book, product) if isinstance(product, Developer) else (),
        of_pack="Pack and price" if book.priced else "Pack",
        price_facts=_prices(book, product, formats),
        history=history_of(product, prices, formats, unit),
        other_packs=_other_packs(product, formats, unit),
        per=per_amount(product, unit),
        troubles=trouble_links(book, product, address),
        notes=free_text(product.notes),
        used=used,
        **shown_pictures(book, product, address),
        **closing_of(book, product, formats),
    )
    lead = product.summary or product_note(product)
    yield Page(address, product.name, lead, body, search=search_entry(book, "product", product))
    yield from render_pages(further, f"{product.name}: where used", lead)


def _exposed(product: Product) -> list[tuple[int, str]]:
    """What the levels that a toner is for show before it, each with its sentence."""
    levels = [int(level) for level in product.levels] if isinstance(product, Toner) else []
    return [(level, pigment_sentence(underlying_at(level))) for level in levels]


def _facts(product: Product) -> list[tuple[str, str]]:
    facts: list[tuple[str, str | None]] = [("Kind", product.kind)]
    if isinstance(product, Lightener):
        facts += [
            ("Form", product.form),
            ("Strength", product.strength),
            ("Lifts", f"up to {counted(product.lifts, 'level')}"),
            ("Pigment", product.pigment),
        ]
    if isinstance(product, Developer):
        # A percentage that the maker does not state is the trade's nominal one, and says so.
        source = "" if product.peroxide is not None else " (nominal)"
        facts += [
            ("Strength", volumes(product.volume)),
            ("Hydrogen peroxide", f"{plain(product.peroxide_percent)} %{source}"),
        ]
    if isinstance(product, Toner):
        facts += [("Form", product.form), ("Tone", either(product.tone))]
        facts += [("On lifted level", either(product.levels)), ("Pigment", product.pigment)]
    if isinstance(product, Lightener | Toner):
        ratio = product.mixing_ratio
        facts.append((f"{product.kind.capitalize()} to developer", str(ratio.usual)))
        if ratio.from_ or ratio.to:
            facts.append(("Range allowed", f"{ratio.from_ or ratio.usual} to {ratio.to or ratio.usual}"))
        if product.developer_limit is not None:
            facts.append(("Strongest developer", volumes(product.developer_limit)))
        for place, minutes in (("hair", product.longest_on_hair), ("scalp", product.longest_on_scalp)):
            if minutes is not None:
                facts.append((f"Longest on the {place}, by its maker", counted(minutes, "minute")))
    if isinstance(product, Additive):
        facts.append(("In the bowl", product.does))
        if product.dose is not None:
            facts.append(("Lightener to additive, at most", str(product.dose)))
    if isinstance(product, Lightener | Developer) and product.placement:
        facts.append(("May be used", both(list(product.placement))))
    density = density_of(product)
    facts += [
        ("Density", None if density is None else f"{plain(density)} g/mL"),
        ("Size", product.size if isinstance(product, Supply) else None),
        ("Kept for", product.kept_for),
        ("Also called", ", ".join(product.other_names)),
    ]
    return _stated(facts)


def _stated(facts: Iterable[tuple[str, str | None]]) -> list[tuple[str, str]]:
    """The facts that there is something to say of."""
    return [(name, text) for name, text in facts if text]


def _prices(book: Book, product: Product, formats: LocaleFormat) -> list[tuple[str, str]]:
    pack = product.pack
    if pack is None:
        return []
    stale, by_piece = stale_on(book, product), price_per_piece(pack)
    facts = [
        ("Net content", shown_amount(pack.net)),
        ("Price", None if pack.price is None else formats.price(pack.price)),
        ("Priced on", None if pack.priced_on is None else formats.day(pack.priced_on)),
        ("Check this price by", None if stale is None else formats.day(stale)),
    ]
    # What is sold by volume has a price by weight only where its density is known.
    by_gram = price_per_gram(pack, density_of(product))
    if by_gram is not None:
        of = {"g": ("Per 100 g", Fraction(100)), "oz": ("Per ounce", GRAMS_PER["oz"])}
        for name, weight in (of[unit] for unit in weight_units(book.house)):
            facts.append((name, formats.price(by_gram * weight)))
    facts += [
        ("Per 100 pieces", None if by_piece is None else formats.price(by_piece * 100)),
        ("Supplier", pack.supplier),
        ("Article number", pack.article),
    ]
    return _stated(facts)


class OtherPack(NamedTuple):
    """The pack of another supplier, as texts; ``by_amount``: its price by `per_amount`."""

    supplier: str
    day: str
    net: str
    price: str
    by_amount: str


def _other_packs(product: Product, formats: LocaleFormat, unit: str) -> list[OtherPack]:
    return [
        OtherPack(
            (each.supplier or "–") + (f", article {each.article}" if each.article else ""),
            formats.day(each.priced_on) if each.priced_on else "–",
            shown_amount(each.net),
            "–" if each.price is None else formats.price(each.price),
            "–" if (value := price_by_amount(product, each, unit)) is None else formats.price(value),
        )
        for each in product.other_packs
    ]
