"""A toner on hair of a level that it is not made for.

Why: a toner neutralises the underlying pigment of its levels only; violet over orange goes khaki, blue-violet
over pale yellow goes grey.
Source: common practice, no published source; schools differ by a level either way, and so may the
pigment. An error where the hair is lifted to none of the toner's levels; a warning where a
situation's hair is lifted to some of them and some others. Of a wish that takes several visits the level
at the end of the first one counts.
Wrong: `hair: {natural_level: 7, lift: 3}`, lifted to 10, and a technique whose toner is for level 7 to 8.
Right: a lift that ends at level 7 or 8, or a technique with a toner for level 10.
"""

from collections.abc import Iterator, Sequence
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import Facets
from bowlbook.entries.product import Product, Toner
from bowlbook.entries.situation import Situation
from bowlbook.entries.technique import Technique
from bowlbook.figures.head import asks_for_no_lift, assumed, completed, head_of
from bowlbook.figures.pigment import neutralises, underlying_at
from bowlbook.figures.region import LEVEL_FACETS, levels_reached, region_of
from bowlbook.figures.stop import stops_of
from bowlbook.figures.visits import house_visit, visits_for
from bowlbook.reading.amount import Span
from bowlbook.reading.finding import Finding

KINDS = ("product", "blend", "technique", "situation")


def find(book: Book, entry: Product | Blend | Technique | Situation, today: date) -> Iterator[Finding]:
    """Findings at a toner's levels, a bowl's target level, a technique's bowl, and what a situation takes."""
    if isinstance(entry, Product):
        yield from _of_product(entry)
    elif isinstance(entry, Blend):
        yield from _of_blend(book, entry)
    elif isinstance(entry, Technique):
        yield from _of_technique(book, entry)
    else:
        yield from _of_situation(book, entry)


def _of_product(product: Product) -> Iterator[Finding]:
    if not isinstance(product, Toner) or product.pigment is None:
        return
    for index, level in enumerate(product.levels):
        if not neutralises(product.pigment, int(level)):
            found = underlying_at(int(level))
            yield product.source.objection(
                ("levels", index),
                f"Level {level} shows {found.shows}, which {found.countered_by} neutralises, "
                f"not {product.pigment}.",
                "Read levels and pigment off the maker's chart.",
            )


def _of_blend(book: Book, blend: Blend) -> Iterator[Finding]:
    said = blend.suits.target_level
    off = _off(range(said.low, said.high + 1), _made_for(book, blend)) if blend.tones and said else ()
    if off:
        message = f"A toner in this bowl is not made for {_level(off)}."
        mend = "Narrow the target level, or take another toner."
        yield blend.source.objection(("suits", "target_level"), message, mend)


def _of_technique(book: Book, technique: Technique) -> Iterator[Finding]:
    for index, bowl in enumerate(technique.bowls):
        blend = book.blends[bowl.blend]
        wanted = _wanted(book, blend)
        reached = _reached(technique.suits) if wanted else ()
        if reached and wanted and not wanted & set(reached):
            yield technique.source.objection(
                ("bowls", index, "blend"),
                f'"{blend.id}" is for {_level(sorted(wanted))}, and no hair that this technique suits is '
                f"lifted to that: it reaches {_level(reached)}.",
                "Take another toner, or look at the lift that the technique suits.",
            )


def _of_situation(book: Book, situation: Situation) -> Iterator[Finding]:
    for index, taken in enumerate(situation.take):
        technique = book.techniques[taken.technique] if taken.technique else None
        for bowl in technique.bowls if technique else ():
            wanted = _wanted(book, book.blends[bowl.blend])
            reached = _reached_today(book, situation) if wanted else ()
            off = _off(reached, wanted)
            if off:
                found = underlying_at(off[-1])
                yield situation.source.objection(
                    ("take", index, "technique"),
                    f'Lifted to {_level(reached)}, and toned with "{bowl.blend}", which is for '
                    f"{_level(sorted(wanted))}: level {off[-1]} shows {found.shows}, "
                    f"which {found.countered_by} neutralises.",
                    "Say a lift or target level that ends where the toner works, "
                    "or take a technique with another toner.",
                    severity="error" if set(off) == set(reached) else "warning",
                )


def _reached(facets: Facets) -> tuple[int, ...]:
    """The levels that hair is lifted to, where its facets say: the target level, or two of the three."""
    said = sum(getattr(facets, name) is not None for name in LEVEL_FACETS)
    region = region_of(facets) if said >= 2 or facets.target_level is not None else None
    return levels_reached(region) if region else ()


def _reached_today(book: Book, situation: Situation) -> tuple[int, ...]:
    """The same for a situation; of a wish that takes several visits, the level at the end of the first."""
    head = completed(head_of(situation.hair))
    if head is None or asks_for_no_lift(head):
        return _reached(situation.hair)
    stops = stops_of(book.house)
    visits = visits_for(house_visit(book.house), stops, assumed(head, one_head=False))
    return (visits[0].to,) if visits else _reached(situation.hair)


def _made_for(book: Book, blend: Blend) -> set[int]:
    """The levels that every toner in a bowl is made for; empty where none says any."""
    toners = [product for each in blend.toners if isinstance(product := book.base(each.product), Toner)]
    said = [set(map(int, toner.levels)) for toner in toners if toner.levels]
    return set.intersection(*said) if said else set()


def _wanted(book: Book, blend: Blend) -> set[int]:
    """The levels that a toning bowl is for, by its own target level, else by its toners; empty for any."""
    target = blend.suits.target_level
    if not blend.tones:
        return set()
    return set(range(target.low, target.high + 1)) if target else _made_for(book, blend)


def _off(levels: Sequence[int], wanted: set[int]) -> list[int]:
    return [level for level in levels if wanted and level not in wanted]


def _level(levels: Sequence[int]) -> str:
    """Levels without a gap, as ``level 7–8``; with one, each of them."""
    if levels[-1] - levels[0] == len(levels) - 1:
        return f"level {Span(levels[0], levels[-1])}"
    return f"level {', '.join(map(str, levels))}"
