"""The front page, the index of each kind, and the page of recent changes."""

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.current import current, current_ids, ids_by_name, is_retired
from bowlbook.entries.entry import Entry
from bowlbook.figures.head import DOMAINS
from bowlbook.pages.address import index_address, relative
from bowlbook.pages.cards.deck import Deck, class_deck, house_decks
from bowlbook.pages.contents import LEADS, overviews_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.link_list import LinkGroup, LinkItem, link_to
from bowlbook.pages.list_row import row_of
from bowlbook.pages.narrowed_list import narrowed_lists
from bowlbook.pages.page import Heading, Page
from bowlbook.pages.pagination import paginate, render_pages
from bowlbook.pages.render import render
from bowlbook.pages.trouble_page import troubles_page
from bowlbook.reading.amount import counted
from bowlbook.wording.entry import KIND_TITLES, note_of
from bowlbook.wording.locale_format import locale_format_of

PRODUCT_TITLES = {
    "lightener": "Lighteners",
    "developer": "Developers",
    "toner": "Toners",
    "additive": "Additives",
    "supply": "Supplies",
}
BANDS = (
    ("Natural level 1 to 4", "dark", 1, 4),
    ("Natural level 5 and 6", "middle", 5, 6),
    ("Natural level 7 to 10", "light", 7, 10),
    ("Any natural level", "any", 0, 0),
)
ASKED = {"natural_level": "Natural level", "texture": "Texture", "tone": "Tone wanted"}
"""What the front page asks first: each answer opens Pick by hair with it."""
REPORTS = {True: "Costs, weighing, and what goes out of date.", False: "Weighing, and what goes out of date."}
ABOVE = ("pick/", index_address("situation"))
"""What the front page shows before the list of what is in the book."""
ON_HOME = 60
"""How many situations the front page lists before it leaves them to their index."""
RECENT = 100
"""How many changes the page of recent changes shows."""
OPEN = 12
"""How many of a day's changes it shows before a fold."""


def _situation_groups(book: Book, start: str) -> list[LinkGroup]:
    """Situations by the band of their darkest natural level."""
    groups = []
    for title, anchor, low, high in BANDS:
        items = []
        for situation in (book.situations[each] for each in ids_by_name(book.situations)):
            # A situation is listed where a reader with the darkest of its levels would look.
            level = situation.hair.natural_level
            if low <= (level.low if level else 0) <= high:
                items.append(listed_item(book, "situation", situation, start))
        if items:
            groups.append(LinkGroup(title, anchor, tuple(items)))
    return groups


def index_pages(book: Book, kind: str) -> Page | Iterator[Page]:
    """Every product by what it is, every situation by natural level, or every trouble."""
    if kind == "trouble":
        return troubles_page(book)
    groups = _situation_groups(book, index_address(kind)) if kind == "situation" else _product_groups(book)
    return list_pages(kind, groups)


def list_pages(kind: str, groups: Sequence[LinkGroup]) -> Iterator[Page]:
    """The list of a kind, of `listed_item`s."""
    return narrowed_lists(paginate(index_address(kind), groups), KIND_TITLES[kind], LEADS[kind])


def _product_groups(book: Book) -> list[LinkGroup]:
    items: dict[str, list[LinkItem]] = {kind: [] for kind in PRODUCT_TITLES}
    for each in ids_by_name(book.products):
        items[book.products[each].kind].append(listed_item(book, "product", book.products[each]))
    return [LinkGroup(PRODUCT_TITLES[kind], kind, tuple(found)) for kind, found in items.items() if found]


def listed_item(book: Book, kind: str, entry: Entry, start: str | None = None) -> LinkItem:
    """An entry as a list shows it; ``start``: the address of that list, if not of the list of its kind."""
    row = row_of(book, entry)
    note = None if row else note_of(book, kind, entry)
    return link_to(kind, entry, index_address(kind) if start is None else start, note)._replace(row=row)


def home_page(book: Book) -> Page:
    """The front page: the hair situations first, then the rest of the book."""
    # A longer list would push the rest of the book off a phone's first screens.
    groups = _situation_groups(book, "") if len(current_ids(book.situations)) <= ON_HOME else []
    shown = [each for each in overviews_of(book) if each.shown]
    sections = [
        LinkItem(each.title, each.address, each.lead)
        for each in shown
        if not each.group and each.address not in ABOVE
    ]
    reports = next((each for each in shown if each.group), None)
    if reports is not None:
        sections.append(LinkItem(reports.group, reports.address, REPORTS[book.priced]))
    has_recipe = bool(book.blends or book.techniques)
    everything = LinkItem("All hair situations", index_address("situation"), "By natural level.")
    body = render(
        "home.html",
        "",
        asked=[
            (title, [(str(value), f"pick/?{facet}={value}") for value in DOMAINS[facet]])
            for facet, title in ASKED.items()
            if has_recipe
        ],
        about=free_text(book.house.about),
        situations=groups,
        all_situations=everything if current_ids(book.situations) else None,
        book_title=book.house.title,
        has_recipe=has_recipe,
        pick=LinkItem("Pick by hair", "pick/", "Tap level, texture and tone; the answer comes at once."),
        sections=sections,
    )
    return Page("", "Home", f"{book.house.title}: the house recipe book.", body)


def decks_pages(book: Book) -> Iterator[Page]:
    """The list of decks: the whole house in sets of cards, and a set for each class."""
    address = "cards/"
    lead = "One card for each blend and technique, on A6 or 4 × 6 inches, with a code that leads to its page."
    groups = [LinkGroup("", "house", tuple(_deck_link(deck, address) for deck in house_decks(book)))]
    classes = [class_deck(book, notes) for notes in current(book.classes).values()]
    items = tuple(_deck_link(deck, address) for deck in classes if deck.entries)
    if items:
        groups.append(LinkGroup("For a class", "classes", items))
    return render_pages(paginate(address, groups), "Cards to print", lead)


def _deck_link(deck: Deck, start: str) -> LinkItem:
    return LinkItem(deck.title, relative(deck.address, start), counted(len(deck.entries), "card"))


def changes_page(book: Book, release: str | None) -> Page:
    """What was reviewed and changed, newest day first; and a link to what changed since the last release."""
    address = "changes/"
    by_day: dict[date, list[tuple[LinkItem, str]]] = {}
    day_format = locale_format_of(book).day
    days = ((key, each, each.retired_on or each.reviewed_on) for key, each in book.outlines().items())
    # Ties in a fixed order, so that the same book gives the same page.
    stamped = sorted(
        (-day.toordinal(), kind, outline.name.casefold(), entry_id)
        for (kind, entry_id), outline, day in days
        if day is not None
    )
    for _, kind, _, entry_id in stamped[:RECENT]:
        entry = book.of_kind(kind)[entry_id]
        day, change = _last_change(entry)
        by_day.setdefault(day, []).append((link_to(kind, entry, address, change), KIND_TITLES[kind]))
    groups = [
        LinkGroup(day_format(day), day.isoformat(), tuple(item for item, _ in items))
        for day, items in by_day.items()
    ]
    folded = [", ".join(dict.fromkeys(kind for _, kind in items[OPEN:])) for items in by_day.values()]
    since = LinkItem(f"Since {release}", "release/", "Amounts, peroxide and costs against the last release.")
    since_release = [since] if release else []
    body = render("changes.html", address, groups=groups, folded=folded, open=OPEN, since=since_release)
    headings = tuple(Heading(group.anchor, group.title) for group in groups[:12])
    return Page(address, "Recent changes", "What was reviewed or changed, newest first.", body, headings)


def _last_change(entry: Any) -> tuple[date, str]:
    """The day on which an entry with a stamp was retired or else last reviewed, and what changed then."""
    if is_retired(entry):
        return entry.retired.on, entry.retired.because
    return entry.reviewed.on, entry.reviewed.change or "Reviewed, nothing changed."
