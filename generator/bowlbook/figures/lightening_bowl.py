"""The lightening bowls of a technique: what each is made like, where it goes, and what rules keep from it."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.facets import PLACEMENTS, Facets
from bowlbook.entries.rule import Rule
from bowlbook.entries.technique import Technique, TechniqueBowl
from bowlbook.figures.head import AREA, EVERY_AREA, REACH, bits_of
from bowlbook.figures.ruling import Clause, MakeUp, kept_by, make_up_of
from bowlbook.figures.tally import any_of


class LighteningBowl(NamedTuple):
    """A lightening bowl of a technique: its blend, what it is made like, the areas it goes to."""

    blend: Blend
    made: MakeUp
    reach: int


def lightening_bowls(book: Book, technique: Technique) -> list[LighteningBowl]:
    """The lightening bowls of a technique, alike ones once."""
    found: dict[tuple[str, MakeUp, int], LighteningBowl] = {}
    for bowl in technique.bowls:
        blend = book.blends[bowl.blend]
        if not blend.tones:
            volume = book.developer(bowl.developer or blend.developer.product).volume
            made = make_up_of(book, blend, (technique.placement,), volume)
            reach = reach_of(book, technique, bowl)
            found[blend.id, made, reach] = LighteningBowl(blend, made, reach)
    return list(found.values())


def reach_of(book: Book, technique: Technique, bowl: TechniqueBowl) -> int:
    """The areas that a lightening bowl goes to, as bits: its own; else those of its technique that its blend
    is for; else, where the blend says none, those that no other lightening bowl is for."""
    whole = bits_of("area", technique.suits.area) or EVERY_AREA
    own = _named_areas(book, bowl, whole)
    if own:
        return own
    lightening = (each for each in technique.bowls if not book.blends[each.blend].tones)
    others = any_of(_named_areas(book, each, whole) for each in lightening)
    # Where the other bowls take every area, this one may meet any of them.
    return whole & ~others or whole


def _named_areas(book: Book, bowl: TechniqueBowl, whole: int) -> int:
    """The areas that a bowl, or else its blend, names; 0 for none within those of the technique."""
    if bowl.area:
        return bits_of("area", bowl.area)
    return bits_of("area", book.blends[bowl.blend].suits.area) & whole


def placements_of(book: Book, blend: Blend) -> tuple[str, ...]:
    """Where a blend may go: where it is meant to, as far as every lightener in it is made for that."""
    allowed = set(blend.suits.placement or PLACEMENTS)
    for each in blend.lighteners:
        allowed &= set(book.lightener(each.product).placement)
    return tuple(word for word in PLACEMENTS if word in allowed)


def made_as_written(book: Book, blend: Blend, placements: tuple[str, ...]) -> MakeUp:
    """A blend with the developer that it is written for: that is what an answer says."""
    return make_up_of(book, blend, placements, book.developer(blend.developer.product).volume)


def where_it_goes(
    clauses: Iterable[Clause], bowl: LighteningBowl, bowls: list[LighteningBowl], *, named: bool
) -> Iterator[Clause]:
    """The clauses about one bowl's blend, limited to the areas that the bowl goes to.

    A clause about an area to which only others of the bowls go is left out. ``named``: with the blend's name.
    """
    # An area that no bowl goes to stays in the clause as it was written.
    reached = any_of(each.reach for each in bowls)
    for clause in clauses:
        when = list(clause.when)
        area = when[AREA]
        if area & reached and not area & bowl.reach:
            continue
        if area & reached and bowl.reach & ~area:
            when[AREA] = area & bowl.reach
        elif area & reached or not area:
            when[AREA], when[REACH] = 0, 0 if bowl.reach == EVERY_AREA else bowl.reach
        yield clause._replace(when=tuple(when), of=bowl.blend.name if named else None)


def ruled_out(book: Book, recipe: Blend | Technique, rules: tuple[Rule, ...]) -> list[tuple[int, Facets]]:
    """The heads that rules about hair keep from a blend or technique, each with the place of its rule.

    Of a technique: what keeps them from one of its bowls, where that goes to their area.
    """
    if not rules or (isinstance(recipe, Blend) and recipe.tones):
        return []
    if isinstance(recipe, Blend):
        placements = placements_of(book, recipe)
        return list(kept_by(rules, made_as_written(book, recipe, placements), placements))
    found = [
        (place, heads)
        for bowl in lightening_bowls(book, recipe)
        for place, heads in kept_by(rules, bowl.made, (recipe.placement,))
        if not heads.area or bits_of("area", heads.area) & bowl.reach
    ]
    return [each for place, each in enumerate(found) if each not in found[:place]]
