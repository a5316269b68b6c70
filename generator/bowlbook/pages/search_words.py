"""What search knows of an entry: its names, and the words of its hair, kind, summary and products.

Other names that the trade uses are a list of their own, `bowlbook.entries.trade_word`.
"""

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.book.reference import references
from bowlbook.entries.blend import Blend
from bowlbook.entries.entry import Entry
from bowlbook.entries.facets import FACETS, Facets
from bowlbook.entries.product import Developer, Lightener, Product, Toner
from bowlbook.entries.technique import Technique
from bowlbook.entries.trouble import Trouble
from bowlbook.pages.page import Change, SearchEntry
from bowlbook.pages.strip import strip_of
from bowlbook.reading.amount import Span, plain
from bowlbook.wording.entry import KIND_NAMES, name_of, product_note, recipe_of, summary_of

RETIRED = "retired"
"""The tag of an entry that is no longer used; `find.js` puts it behind the others."""


def search_entry(book: Book, kind: str, entry: Entry) -> SearchEntry:
    """An entry as search finds and shows it."""
    hair = next((each for field in ("suits", "hair") if (each := getattr(entry, field, None))), None)
    words = [kind, summary_of(entry) or ""]
    if isinstance(hair, Facets):
        words += facet_words(hair)
    if isinstance(entry, Trouble):
        words += entry.signs
    if isinstance(entry, Technique):
        words.append(entry.placement)
    if isinstance(entry, Blend):
        words.append("toner" if entry.tones else "lightener")
    if isinstance(entry, Product):
        words += _product_words(entry)
    # Entries that a recipe warns against, or that take its place, are no reason to find it.
    words += [
        name_of(book.of_kind(each.ref.to)[each.id])
        for each in references(entry)
        if each.loc[0] not in ("not_for", "avoid", "retired") and each.id in book.of_kind(each.ref.to)
    ]
    reviewed = getattr(entry, "reviewed", None)
    former = [each.replace("-", " ") for each in getattr(entry, "formerly", ())]
    return SearchEntry(
        name_of(entry),
        ". ".join(each for each in dict.fromkeys(words) if each),
        KIND_NAMES[kind],
        note=_note(book, entry),
        # Whoever renamed it may know it by its former id alone.
        names=(*getattr(entry, "other_names", ()), *former),
        tag=_tag(entry),
        strip=strip_of(hair) if isinstance(hair, Facets) else None,
        change=Change(reviewed.on.isoformat(), reviewed.change or "") if reviewed else None,
    )


def facet_words(facets: Facets) -> list[str]:
    """The values of a set of heads as words: each level by itself, and texts with what they are of."""
    words: list[str] = []
    for name in FACETS:
        value = getattr(facets, name)
        if isinstance(value, Span):
            words += [facet_phrase(name, number) for number in range(value.low, value.high + 1)]
        elif value:
            words += [facet_phrase(name, word) for word in value]
    return words


def facet_phrase(name: str, value: object) -> str:
    """One value of a facet as search knows it, as ``level 4``, ``lift 3``, ``fine``, ``high porosity``."""
    if word := {"natural_level": "level", "target_level": "target level", "lift": "lift"}.get(name):
        return f"{word} {value}"
    return f"{value} {name}" if name in ("density", "porosity", "grey") else str(value)


def _note(book: Book, entry: Entry) -> str:
    """The second line: a blend's recipe, what a product is, and what else says of itself."""
    if isinstance(entry, Blend):
        return recipe_of(book, entry)
    return (product_note(entry) if isinstance(entry, Product) else summary_of(entry)) or ""


def _tag(entry: Entry) -> str:
    """A word or two beside the kind: that it is retired, how it is placed, or that it tones."""
    if is_retired(entry):
        return RETIRED
    if isinstance(entry, Technique):
        return entry.placement
    if isinstance(entry, Blend):
        return "toner" if entry.tones else ", ".join(entry.suits.placement)
    return ""


def _product_words(product: Product) -> list[str]:
    words = [product.kind]
    if isinstance(product, Lightener):
        words += [product.form, product.strength, product.pigment, *product.placement]
    elif isinstance(product, Developer):
        words += [f"{plain(product.volume)} volume", f"{plain(product.peroxide_percent)} %"]
    elif isinstance(product, Toner):
        words += [product.form, *product.tone]
        words += [product.pigment] if product.pigment else []
    return words
