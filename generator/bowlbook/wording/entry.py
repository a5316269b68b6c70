"""Names of entries and kinds, and an entry in one line: a blend's recipe, a product's description."""

from collections.abc import Callable
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.entry import Entry
from bowlbook.entries.product import Developer, Lightener, Product, Toner
from bowlbook.entries.technique import Technique
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.developer import volumes
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.listing import either

KIND_TITLES = {
    "situation": "Hair situations",
    "blend": "Blends",
    "technique": "Techniques",
    "trouble": "When it goes wrong",
    "product": "Products",
    "class": "Class notes",
}
"""The kinds in the order in which the site shows them, by their titles."""


KIND_NAMES = {
    "house": "House",
    "situation": "Hair situation",
    "blend": "Blend",
    "technique": "Technique",
    "trouble": "When it goes wrong",
    "product": "Product",
    "class": "Class notes",
}
"""One entry of each kind, as people call it."""


def name_of(entry: Entry) -> str:
    """An entry's name."""
    return str(getattr(entry, "name", entry.id))


def summary_of(entry: Entry) -> str | None:
    """An entry's own summary, if it has one."""
    summary: str | None = getattr(entry, "summary", None)
    return summary


def note_of(book: Book, kind: str, entry: Entry) -> str | None:
    """The note under an entry's name in a list; None where there is none."""
    if isinstance(entry, Blend):
        # Without facets the sentence ends with the recipe.
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
        lifts = f"lifts up to {counted(product.lifts, 'level')}"
        words = [f"lightener: {product.form}", product.strength, lifts, pigment]
    elif isinstance(product, Developer):
        words = [f"developer: {volumes(product.volume)}", f"{plain(product.peroxide_percent)} %"]
    elif isinstance(product, Toner):
        words = [f"toner: {product.form}", either(product.tone)]
    return ", ".join(words)


def recipe_of(book: Book, blend: Blend) -> str:
    """A blend in one line: parts, ratio and developer."""
    developer = book.developer(blend.developer.product)
    shares = _shares(book, blend, lambda parts: counted(parts, "part"))
    return f"{shares}; {blend.developer.ratio} with {developer.name}"


def lettered_recipe(book: Book, blend: Blend) -> str:
    """A blend beside its own table, by its pours' letters: ``2 parts A + 1 part B, 1:2 with 20 volume``."""
    parts = [each.parts for each in blend.shares]
    shares = [f"{counted(part, 'part')} {chr(ord('A') + place)}" for place, part in enumerate(parts)]
    developer = volumes(book.developer(blend.developer.product).volume)
    mixed = f"{blend.developer.ratio} with {developer}"
    return f"{' + '.join(shares)}, {mixed}" if len(shares) > 1 else mixed


def short_recipe(book: Book, blend: Blend) -> str:
    """A blend in a list: parts and names, ratio, developer, additives."""
    added = [book.products[each.product].name for each in blend.additives]
    developer = volumes(book.developer(blend.developer.product).volume)
    return f"{' + '.join([_shares(book, blend, plain), *added])} · {blend.developer.ratio} · {developer}"


def _shares(book: Book, blend: Blend, words: Callable[[Fraction], str]) -> str:
    """What a blend is made of, each with its parts in ``words``; of one product its name alone."""
    named = [(words(each.parts), book.products[each.product].name) for each in blend.shares]
    return named[0][1] if len(named) == 1 else " + ".join(f"{parts} {name}" for parts, name in named)
