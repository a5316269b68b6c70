"""Pages of troubles: what to do now first, then never, a doctor, the signs, the next visit, the origin."""

from bowlbook.book.book import Book
from bowlbook.book.long_texts import whole_at
from bowlbook.entries.blend import Blend
from bowlbook.entries.house import House
from bowlbook.entries.product import Product
from bowlbook.entries.technique import Technique
from bowlbook.entries.trouble import AT_RISK, Trouble
from bowlbook.figures.trouble import gravest_first, troubles_of
from bowlbook.pages.address import entry_address, index_address
from bowlbook.pages.closing import closing_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.link_list import LinkGroup, LinkItem, link_to
from bowlbook.pages.page import Page
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.wording.caution import FIRST_AID, FIRST_AID_SOURCE
from bowlbook.wording.entry import KIND_TITLES
from bowlbook.wording.listing import either
from bowlbook.wording.locale_format import locale_format_of

RISK_TITLES = {"person": "The person", "hair": "The hair", "bowl": "The bowl and the mix"}
PLACED = {"open-air": "in the open air", "foil": "in foil", "on-scalp": "on the scalp"}
LEAD = "Tap what you see. What to do now comes first."


def calls_of(house: House) -> list[tuple[str, str]]:
    """The house's emergency numbers to tap: what stands on each button, and where it leads."""
    return [
        (f"Call {each.number} ({each.jurisdiction})", f"tel:{each.number}")
        for each in house.emergency_numbers
    ]


def trouble_links(book: Book, entry: Technique | Blend | Product, start: str) -> list[LinkItem]:
    """Links from an entry's page to the troubles that can come from it."""
    return [link_to("trouble", each, start) for each in troubles_of(book, entry)]


def trouble_page(book: Book, entry_id: str) -> Page:
    """The finished page of a trouble."""
    trouble, address = whole_at(book.troubles, entry_id), entry_address("trouble", entry_id)
    placed = trouble.comes_from.placement if trouble.comes_from else ()
    body = render(
        "trouble.html",
        address,
        trouble=trouble,
        of_person=trouble.at_risk == "person",
        calls=calls_of(book.house),
        origin=_origin(book, trouble, address),
        placed=either(tuple(PLACED[each] for each in placed)),
        notes=free_text(trouble.notes),
        **closing_of(book, trouble, locale_format_of(book)),
    )
    lead = trouble.summary or trouble.now[0]
    return Page(address, trouble.name, lead, body, search=search_entry(book, "trouble", trouble))


def troubles_page(book: Book) -> Page:
    """Every trouble on one page under the usual first aid, which no setting removes."""
    address = index_address("trouble")
    found: dict[str, list[LinkItem]] = {risk: [] for risk in AT_RISK}
    for each in gravest_first(book):
        found[each.at_risk].append(link_to("trouble", each, address, each.summary or each.now[0]))
    groups = [LinkGroup(RISK_TITLES[risk], risk, tuple(items)) for risk, items in found.items() if items]
    title = KIND_TITLES["trouble"]
    body = render(
        "troubles.html",
        address,
        title=title,
        lead=LEAD if groups else "",
        groups=groups,
        first_aid=FIRST_AID,
        source=FIRST_AID_SOURCE,
        calls=calls_of(book.house),
    )
    return Page(address, title, LEAD, body)


def _origin(book: Book, trouble: Trouble, start: str) -> list[LinkGroup]:
    """What the trouble names as its origin, by kind."""
    origin = trouble.comes_from
    if origin is None:
        return []
    named: dict[str, list[Technique] | list[Blend] | list[Product]] = {
        "technique": [book.techniques[each] for each in origin.techniques],
        "blend": [book.blends[each] for each in origin.blends],
        "product": [book.products[each] for each in origin.products],
    }
    return [
        LinkGroup(KIND_TITLES[kind], kind, tuple(link_to(kind, each, start) for each in entries))
        for kind, entries in named.items()
        if entries
    ]
