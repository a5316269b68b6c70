"""A technique says that it suits heads for which the blend in one of its bowls is refused.

Why: the technique's page and the blend's own `not_for` say opposite things of one head, and whoever reads
only the technique mixes what the blend's author refused.
Source: none needed; both stand in one book. A facet of which the technique says nothing contradicts nothing;
what the technique refuses itself is left out; and where a refusal names an area, so is hair of that area for
which the technique has another bowl. A refusal of all that the blend suits is `contradictory-suits`.
Wrong: a technique with `suits: {texture: [fine, medium]}` and a bowl of a blend with
`not_for: [{when: {texture: [fine]}, …}]`.
Right: take `fine` out of what the technique suits, refuse it in the technique's own `not_for`, or take
another blend.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend, NotFor
from bowlbook.entries.facets import FACETS, Facets, within
from bowlbook.entries.technique import Technique
from bowlbook.figures.region import LEVEL_FACETS, common, outside, region_of
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Findings at the bowl's blend, one for each refusal that it runs into."""
    for index, bowl in enumerate(technique.bowls):
        blend = book.blends[bowl.blend]
        if blend.tones:
            continue  # what it tones is lifted hair: see toner-off-level
        for refusal in blend.not_for:
            if _contradicts(book, technique, blend, refusal):
                yield technique.source.objection(
                    ("bowls", index, "blend"),
                    f'"{bowl.blend}" is refused for hair that this technique says it suits: '
                    f"{_words(refusal.when)}. {refusal.because}",
                    "Take that hair out of suits, refuse it in this technique's not_for, "
                    "or take another blend.",
                )


def _contradicts(book: Book, technique: Technique, blend: Blend, refusal: NotFor) -> bool:
    """Whether some head that the technique names in so many words is refused by the blend alone."""
    if not _said(technique.suits, refusal.when) or within(blend.suits, refusal.when):
        return False
    suited = common(region_of(technique.suits), region_of(Facets(placement=(technique.placement,))))
    refused = common(suited, region_of(refusal.when))
    if refused is None:
        return False
    covers = [region_of(each.when) for each in technique.not_for]
    if refusal.when.area:
        covers += [
            region_of(other.suits)
            for other in (book.blends[bowl.blend] for bowl in technique.bowls)
            if other.id != blend.id and not other.tones
        ]
    return outside(refused, covers) is not None


def _said(suits: Facets, when: Facets) -> bool:
    """Whether the technique speaks of each facet that the refusal names; two of the levels give the third."""
    levels = sum(getattr(suits, name) is not None for name in LEVEL_FACETS)
    return all(
        getattr(suits, name) or name == "placement" or (name in LEVEL_FACETS and levels >= 2)
        for name in FACETS
        if getattr(when, name)
    )


def _words(when: Facets) -> str:
    """A refusal's heads as they are written: ``texture fine, natural level 1-4``."""
    return ", ".join(
        f"{name.replace('_', ' ')} {' or '.join(value) if isinstance(value, tuple) else value}"
        for name, value in when.named.items()
    )
