"""Lists of links to entries, and who uses an entry."""

from dataclasses import dataclass

from bowlbook.book.book import Book
from bowlbook.book.folder import FOLDER_OF
from bowlbook.entries.blend import Blend
from bowlbook.entries.entry import Entry
from bowlbook.entries.product import Developer, Lightener, Product, Toner
from bowlbook.entries.technique import Technique
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.wording import either, facet_sentence, volumes
from bowlbook.reading.amount import counted, plain

KIND_TITLES = {
    "situation": "Hair situations",
    "blend": "Blends",
    "technique": "Techniques",
    "product": "Products",
    "class": "Class notes",
}
"""The kinds in the order in which the site shows them, by their titles."""


KIND_WORDS = {
    "house": "House",
    "situation": "Hair situation",
    "blend": "Blend",
    "technique": "Technique",
    "product": "Product",
    "class": "Class notes",
}
"""One entry of each kind, as people call it."""


@dataclass(frozen=True, slots=True)
class LinkItem:
    """A link with a name and, under it, a note."""

    name: str
    href: str
    note: str | None = None


@dataclass(frozen=True, slots=True)
class LinkGroup:
    """Links under a title. An empty title has no heading."""

    title: str
    anchor: str
    items: tuple[LinkItem, ...]

    def ends(self) -> tuple[str, str]:
        """What the first and the last link are found by."""
        return self.items[0].name, self.items[-1].name


def name_of(entry: Entry) -> str:
    """An entry's name."""
    return str(getattr(entry, "name", entry.id))


def summary_of(entry: Entry) -> str | None:
    """An entry's sentence about itself."""
    summary: str | None = getattr(entry, "summary", None)
    return summary


def link_to(kind: str, entry: Entry, start: str, note: str | None = None) -> LinkItem:
    """A link to an entry from the page at ``start``."""
    return LinkItem(name_of(entry), relative(entry_address(kind, entry.id), start), note)


def note_of(book: Book, kind: str, entry: Entry) -> str | None:
    """What a list says of an entry under its name."""
    if isinstance(entry, Blend):
        return f"{recipe_of(book, entry)}. {facet_sentence(entry.suits)}".rstrip(". ")
    if isinstance(entry, Product):
        return product_note(entry)
    if isinstance(entry, Technique):
        return entry.summary or entry.placement
    return summary_of(entry)


def product_note(product: Product) -> str:
    """A product in a few words, as ``lightener: clay, gentle, lifts up to 5 levels, blue-violet pigment``."""
    words = [product.kind]
    if isinstance(product, Lightener):
        pigment = "no pigment" if product.pigment == "none" else f"{product.pigment} pigment"
        words = [
            f"lightener: {product.form}",
            product.strength,
            f"lifts up to {counted(product.lifts, 'level')}",
            pigment,
        ]
    elif isinstance(product, Developer):
        words = [f"developer: {volumes(product.volume)}", f"{plain(product.peroxide_percent)} %"]
    elif isinstance(product, Toner):
        words = [f"toner: {product.form}", either(product.tone)]
    return ", ".join(words)


def recipe_of(book: Book, blend: Blend) -> str:
    """A blend in one line: parts, ratio and developer."""
    names = [book.products[each.product].name for each in blend.shares]
    amounts = [each.parts for each in blend.shares]
    developer = book.developer(blend.developer.product)
    mixed = " + ".join(
        f"{counted(amount, 'part')} {name}" for amount, name in zip(amounts, names, strict=True)
    )
    return f"{names[0] if len(names) == 1 else mixed}; {blend.developer.ratio} with {developer.name}"


def where_used(book: Book, kind: str, entry: Entry, start: str) -> tuple[LinkGroup, ...]:
    """Every entry that names this one, grouped by kind."""
    users = book.used_by.get((kind, entry.id), ())
    groups = []
    for user_kind, title in KIND_TITLES.items():
        found = sorted(
            (book.of_kind(user_kind)[user_id] for by, user_id in users if by == user_kind),
            key=lambda user: (name_of(user).casefold(), user.id),
        )
        if found:
            items = tuple(link_to(user_kind, user, start) for user in found)
            groups.append(LinkGroup(title, FOLDER_OF[user_kind], items))
    return tuple(groups)
