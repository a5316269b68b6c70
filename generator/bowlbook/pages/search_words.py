"""The words that search finds an entry by, including other names that the trade uses.

Those other names are common practice, no published source.
"""

from bowlbook.book.book import Book
from bowlbook.book.reference import references
from bowlbook.entries.entry import Entry
from bowlbook.entries.facets import FACETS, Facets
from bowlbook.entries.product import Developer, Lightener, Product, Toner
from bowlbook.entries.technique import Technique
from bowlbook.entries.trouble import Trouble
from bowlbook.pages.page import SearchEntry
from bowlbook.reading.amount import Span, plain
from bowlbook.wording.entry import KIND_NAMES, KIND_TITLES, name_of, summary_of
from bowlbook.wording.facet import FACET_NAMES

ALSO_CALLED = {
    "lightener": "bleach, decolourant",
    "developer": "peroxide, oxidant, hydrogen peroxide",
    "toner": "gloss, glaze, toning",
    "additive": "bond builder, bond",
    "powder": "powder bleach, bleaching powder",
    "clay": "clay bleach",
    "cream": "cream bleach",
    "oil": "oil bleach",
    "open-air": "painting, hand painting, freehand, balayage, open air",
    "foil": "foils, highlights, streaks, packets",
    "on-scalp": "scalp bleach, root touch-up, global, on scalp",
    "scalp regrowth": "roots, regrowth, root, outgrowth",
    "hairline": "front, face frame, baby hairs, money piece",
    "lengths": "mid-lengths, middles",
    "ends": "tips",
    "cool": "ash, ashy, icy, beige",
    "warm": "gold, golden, copper, honey",
    "neutral": "natural",
    "coarse": "thick strand, strong hair, wiry",
    "fine": "thin strand, delicate, baby fine",
    "coily": "kinky, tightly curled, tight curls",
    "curly": "curls",
    "previously lightened": "bleached, already blonde, highlighted before",
    "previously coloured": "dyed, tinted, previously colored, box dye, color",
    "virgin": "natural, never coloured",
    "high porosity": "porous, damaged",
}
"""A word of the book, and what people type for it."""


def search_entry(book: Book, kind: str, entry: Entry) -> SearchEntry:
    """An entry's names, facets and products, with other names for them, as one short text."""
    sentences: list[str] = [KIND_TITLES[kind]]
    sentences += [
        each.rstrip(".") for each in (summary_of(entry), *getattr(entry, "other_names", ())) if each
    ]
    if isinstance(entry, Trouble):
        sentences += [each.rstrip(".") for each in entry.signs]
    # Whoever renamed it may know it by its former id alone.
    sentences += [each.replace("-", " ") for each in getattr(entry, "formerly", ())]
    words: list[str] = []
    for field in ("suits", "hair"):
        facets = getattr(entry, field, None)
        if isinstance(facets, Facets):
            words += _facet_words(facets)
    if isinstance(entry, Technique):
        words.append(entry.placement)
    # A blend's own text seldom has the word that people search by.
    if kind == "blend":
        words.append("lightener")
    if isinstance(entry, Product):
        words += _product_words(entry)
    # Entries that a recipe warns against, or that take its place, are no reason to find it.
    names = [
        name_of(book.of_kind(each.ref.to)[each.id])
        for each in references(entry)
        if each.loc[0] not in ("not_for", "avoid", "retired") and each.id in book.of_kind(each.ref.to)
    ]
    unique = list(dict.fromkeys(words))
    also = [ALSO_CALLED[word] for word in unique if word in ALSO_CALLED]
    lists = [", ".join(each) for each in (unique, dict.fromkeys(names), also) if each]
    text = ". ".join([*sentences, *lists])
    return SearchEntry(name_of(entry), " ".join(text.split()), KIND_NAMES[kind])


def _facet_words(facets: Facets) -> list[str]:
    words: list[str] = []
    for name in FACETS:
        value = getattr(facets, name)
        if isinstance(value, Span):
            label = FACET_NAMES[name].lower() if name != "natural_level" else "level"
            words += [f"{label} {number}" for number in range(value.low, value.high + 1)]
        elif value:
            suffix = f" {name}" if name in ("density", "porosity") else ""
            words += [word + suffix for word in value]
    return words


def _product_words(product: Product) -> list[str]:
    words = [product.kind]
    if isinstance(product, Lightener):
        words += [product.form, product.strength, f"{product.pigment} pigment", *product.placement]
    elif isinstance(product, Developer):
        words += [f"{plain(product.volume)} volume", f"{plain(product.peroxide_percent)} %"]
    elif isinstance(product, Toner):
        words += [product.form, *product.tone]
        words += [f"{product.pigment} pigment"] if product.pigment else []
    return words
