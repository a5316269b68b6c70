"""Which recipes are no answer any more, because they are retired or something in their bowls is."""

from collections.abc import Iterator

from bowlbook.book.book import Book, EntryKey
from bowlbook.book.current import is_retired
from bowlbook.entries.blend import Blend
from bowlbook.entries.technique import Technique


def retired_in(book: Book, recipe: Blend | Technique) -> list[EntryKey]:
    """What is retired of a blend or technique: itself, its blends, what goes into their bowls; each once.

    A developer that may only stand in (``also``), and supplies, are not counted: the bowl is mixed without.
    """
    needed = dict.fromkeys(_needed(book, recipe))
    return [(kind, entry_id) for kind, entry_id in needed if is_retired(book.of_kind(kind)[entry_id])]


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
