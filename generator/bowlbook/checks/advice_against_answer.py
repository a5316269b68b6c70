"""A situation takes a blend or a technique that the book's own rules and refusals keep from that head.

Why: the page says "take" at its top and "not" at its foot.
Source: none needed; the head, the recipes' own refusals and the house's rules stand in one book.
Wrong: `hair: {curl: [coily]}` and `take: [{blend: white-foil, …}]`, where a rule keeps it off coils.
Right: another blend; or say less in `hair`, where the rule does not fit.
"""

from collections.abc import Iterator
from datetime import date
from functools import cache, partial

from bowlbook.book.book import Book
from bowlbook.entries.situation import Situation
from bowlbook.figures.candidate import candidate_of
from bowlbook.figures.head import completed, head_of
from bowlbook.figures.match import judge
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc

KINDS = ("situation",)


def find(book: Book, situation: Situation, today: date) -> Iterator[Finding]:
    """Findings at what is taken."""
    candidate = cache(partial(candidate_of, book))
    head = completed(head_of(situation.hair))
    if head is None:
        yield situation.source.finding(
            ("hair",),
            "advice-against-answer",
            "Natural level, lift and target level do not go together.",
            "Lift is the target level less the natural level.",
        )
        return
    for index, taken in enumerate(situation.take):
        named = [("blend", taken.blend, "blend"), ("technique", taken.technique, "technique")]
        for kind, entry_id, key in named:
            recipe = None if entry_id is None else candidate(kind, entry_id)
            if recipe is None:
                continue  # what only tones answers no head
            verdict = judge(recipe, head)
            if verdict.excluded:
                loc: Loc = ("take", index, key)
                yield situation.source.finding(
                    loc,
                    "advice-against-answer",
                    f'"{entry_id}" is kept from this head: {verdict.excluded[0].because}',
                    "Take another, or say less of the head.",
                )
