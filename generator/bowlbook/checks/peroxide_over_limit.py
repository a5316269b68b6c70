"""A bowl holds more hydrogen peroxide than a jurisdiction of the house allows.

Why: it is the law there, and it is a burn.
Source: the house's own `limits`, each with jurisdiction, date and source. Reckoned with the nominal strength
of the developer, its peroxide only, for the batch where rounding makes it strongest.
Wrong: a limit of 6 % and 40 volume at 1:2 (8 %).
Right: a weaker developer.
"""

from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.checks.developer_over_house_limit import developers_with_places
from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import CannotWeigh, Mixer, ladder_of
from bowlbook.figures.peroxide import peroxide_in_bowl
from bowlbook.figures.rounding import fixed
from bowlbook.reading.amount import plain
from bowlbook.reading.finding import Finding

KINDS = ("blend",)


def find(book: Book, blend: Blend, today: date) -> Iterator[Finding]:
    """Findings at the developer that brings a bowl over a limit."""
    for loc, entry_id in developers_with_places(blend):
        strength = book.developer(entry_id).peroxide_percent
        # A bowl is never stronger than its developer, so that most need no reckoning.
        near = [limit for limit in book.house.limits if strength > limit.peroxide]
        worst = _worst(book, blend, entry_id) if near else Fraction(0)
        for limit in near:
            if worst > limit.peroxide:
                yield blend.source.objection(
                    loc,
                    f"{fixed(worst, 2)} % peroxide in the bowl is over {plain(limit.peroxide)} % "
                    f"({limit.jurisdiction}, since {limit.since.isoformat()}: {limit.source}).",
                    "Use a weaker developer, or less of it.",
                )


def _worst(book: Book, blend: Blend, developer_id: str) -> Fraction:
    developer = book.developer(developer_id)
    ratio = blend.developer.ratio.value
    whole = 1 + ratio + sum((each.ratio.value for each in blend.additives), Fraction(0))
    found = [peroxide_in_bowl(developer.peroxide_percent, ratio, whole)]
    mixer = Mixer(book, blend, developer)
    for size in ladder_of(book, blend):
        with suppress(CannotWeigh):
            found.append(mixer.mix(*size).peroxide)
    return max(found)
