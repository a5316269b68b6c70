"""Which recipes are no answer any more, because they are retired or something in their bowls is."""

from collections.abc import Iterator

from bowlbook.book.book import Book, EntryKey
from bowlbook.book.current import is_retired
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique


def retired_in(book: Book, recipe: Blend | Technique) -> list[EntryKey]:
    """What is retired of a blend or technique: itself, its blends, what goes into their bowls; each once.

    A developer that may only stand in (``also``), and supplies, are not counted: the bowl is mixed without.
    """
    needed = dict.fromkeys(_needed(book, recipe))
    return [(kind, entry_id) for kind, entry_id in needed if is_retired(book.of_kind(kind)[entry_id])]


def withdrawn_recipes(book: Book) -> set[EntryKey]:
    """The blends and techniques that are retired, or have something retired in their bowls.

    Only those that name what is out of use are loaded.
    """
    out = set(book.retired)
    for kind, recipes in (("blend", book.blends), ("technique", book.techniques)):
        for entry_id, outline in outlines_of(recipes).items():
            # The outline names what the entry names; only the entry says whether it goes into the bowl.
            names_one = any((named, name) in out for named, name, _ in outline.named)
            if names_one and retired_in(book, recipes[entry_id]):
                out.add((kind, entry_id))
    return {key for key in out if key[0] in ("blend", "technique")}


def _needed(book: Book, recipe: Blend | Technique) -> Iterator[EntryKey]:
    if isinstance(recipe, Technique):
        yield "technique", recipe.id
        for bowl in recipe.bowls:
            yield from _needed(book, book.blends[bowl.blend])
            if bowl.developer is not None:
                yield "product", bowl.developer
        return
    yield "blend", recipe.id
    for part in (*recipe.shares, *recipe.additives):
        yield "product", part.product
    yield "product", recipe.developer.product
