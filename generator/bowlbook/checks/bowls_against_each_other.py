"""One bowl of a technique is refused for hair that another of its bowls is meant for.

Why: both bowls go on one head. Whoever reads the one blend thinks that the head may have the technique; the
other blend's author refused it, and the head gets no answer or half of one.
Source: none needed; both blends and the technique are in one book. Hair that the technique itself refuses or
does not suit is left out, and so is a refusal of an area that the bowl does not go to. Where the technique
itself names the hair it is `bowl-against-technique`.
Wrong: bowls of two blends, one with `suits: {history: [virgin, previously coloured]}`, the other with
`not_for: [{when: {history: [previously coloured]}, …}]`.
Right: refuse that hair in the technique's own `not_for`, or narrow what it suits, or take another blend.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import FACETS, Facets
from bowlbook.entries.technique import Technique
from bowlbook.figures.head import bits_of
from bowlbook.figures.lightening_bowl import reach_of
from bowlbook.figures.region import common, outside, region_of
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Findings at the blend of the bowl that is refused, one for each refusal."""
    bowls = [(index, bowl, book.blends[bowl.blend]) for index, bowl in enumerate(technique.bowls)]
    lightening = [each for each in bowls if not each[2].tones]
    for index, bowl, blend in lightening:
        reach = reach_of(book, technique, bowl)
        for refusal in blend.not_for:
            if refusal.when.area and not bits_of("area", refusal.when.area) & reach:
                continue  # the bowl does not go there
            for _, _, other in lightening:
                if other.id != blend.id and _contradicts(technique, other, refusal):
                    yield technique.source.objection(
                        ("bowls", index, "blend"),
                        f'"{blend.id}" is refused for hair that "{other.id}" in the same technique is meant '
                        f"for. {refusal.because}",
                        "Refuse that hair in this technique's not_for, narrow what it suits, or take another "
                        "blend.",
                    )
                    break


def _contradicts(technique: Technique, other: Blend, refusal: NotFor) -> bool:
    """Whether the other blend names all that the refusal names, the technique not, and some head is left."""
    named = [name for name in FACETS if getattr(refusal.when, name) and name not in ("placement", "area")]
    if not named or not all(getattr(other.suits, name) for name in named):
        return False
    if all(getattr(technique.suits, name) for name in named):
        return False
    placed = Facets(placement=(technique.placement,))
    head = region_of(refusal.when)
    for facets in (technique.suits, other.suits, placed):
        head = common(head, region_of(facets))
    if head is None:
        return False
    covers = [region_of(each.when) for each in technique.not_for]
    covers += [region_of(each.when) for each in other.not_for]
    return outside(head, covers) is not None
