"""The sizes that the scale cannot weigh are those whose mixed bowl says so."""

from dataclasses import replace
from fractions import Fraction as F

import pytest
from richer_book import enrich

from bowlbook.book.book import Book
from bowlbook.entries.ladder import Ladder
from bowlbook.figures.bowl import CannotWeigh, ladder_of, mix, unweighable_sizes
from checks.small_book import SmallBook


@pytest.fixture
def richer(book: SmallBook) -> Book:
    return enrich(book).read()


def unweighable(book: Book, blend_id: str) -> list[tuple[str, int, F, F]]:
    """Unit, place in its ladder, batch and step of each size that cannot be weighed."""
    found = unweighable_sizes(book, book.blends[blend_id])
    return [(unit, place, weighing.batch, weighing.step) for unit, place, weighing in found]


def mixed(book: Book, blend_id: str) -> list[tuple[str, int, F, F]]:
    """The same by mixing every bowl of the ladder."""
    found = []
    seen = {"oz": 0, "g": 0}
    for unit, batch, step in ladder_of(book, book.blends[blend_id]):
        try:
            fits = mix(book, book.blends[blend_id], unit, batch, step).within_tolerance
        except CannotWeigh:
            fits = False
        if not fits:
            found.append((unit, seen[unit], batch, step))
        seen[unit] += 1
    return found


@pytest.mark.parametrize("tolerance", [0, 1, 2, 5])
def test_they_are_those_of_the_mixed_bowls(richer: Book, demo_book: Book, tolerance: int) -> None:
    some = 0
    for whole in (richer, demo_book):
        book = replace(whole, house=replace(whole.house, rounding_tolerance=F(tolerance)))
        for blend in book.blends.values():
            assert unweighable(book, blend.id) == mixed(book, blend.id), blend.id
            some += len(mixed(book, blend.id))
    assert some


def test_blends_of_other_proportions_have_their_own_sizes(richer: Book) -> None:
    """Whatever differs in the proportions or the ladder, the memoised answer of another blend is not used."""
    blend = richer.blends["violet-foil"]
    choice, (additive,), (first, second) = blend.developer, blend.additives, blend.lighteners
    variants = {
        "as-it-is": blend,
        "parts": replace(blend, lighteners=(first, replace(second, parts=F(40)))),
        "developer": replace(blend, developer=replace(choice, ratio=replace(choice.ratio, right=F("1.37")))),
        "additive": replace(blend, additives=(replace(additive, ratio=replace(additive.ratio, left=F(90))),)),
        "no-additive": replace(blend, additives=()),
        "ladder": replace(blend, batches=Ladder(oz=(F("0.2"), F("0.35")), g=(F(7), F(9)))),
    }
    for name, each in variants.items():
        each.placed(name, blend.source)
    strict = replace(richer.house, rounding_tolerance=F(1))
    book = replace(richer, house=strict, blends=variants)
    found = {name: unweighable(book, name) for name in variants}
    assert found == {name: mixed(book, name) for name in variants}
    assert len({str(each) for each in found.values()}) >= 3
