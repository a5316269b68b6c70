"""What changed at the bench, in sentences for a terminal, a comment on a pull request, or a page."""

from collections import Counter
from collections.abc import Iterable, Sequence

from bowlbook.book.book import Book
from bowlbook.figures.difference import CONCERNED, NOT_COMPARED, Difference
from bowlbook.figures.fact import Fact
from bowlbook.wording.entry import KIND_NAMES, KIND_TITLES, name_of


def title_of(difference: Difference) -> str:
    """An entry and what became of it, as ``Blend "Cool foil" (was old-id)``."""
    state = "" if difference.state == "changed" else f": {difference.state}"
    was = f" (was {difference.was})" if difference.was else ""
    return f"{KIND_NAMES[difference.kind]} “{difference.name}”{was}{state}"


def fact_sentence(fact: Fact) -> str:
    """One fact, as ``peroxide in 0.6 oz: 4.00 % → 4.20 %``."""
    # A cost that appears is usually a price that was filled in, not something new in the bowl.
    come, gone = ("now known", "no longer known") if fact.money else ("new", "gone")
    if fact.before is None and fact.after is None:
        return f"{fact.what}: changed"
    if fact.before is None:
        return f"{fact.what}: {come}, {fact.after}"
    if fact.after is None:
        return f"{fact.what}: {gone}, was {fact.before}"
    return f"{fact.what}: {fact.before} → {fact.after}"


def who_should_know(book: Book, differences: Iterable[Difference]) -> list[tuple[str, list[str]]]:
    """The entries that any of these concern at the scale, by kind: title and names, blends first."""
    # What was not compared may have changed or not: nobody is sent a warning for it.
    compared = (each for each in differences if each.state != NOT_COMPARED)
    keys = sorted({key for each in compared for key in each.known_by})
    found = []
    for kind in CONCERNED:
        entries = book.of_kind(kind)
        names = [name_of(entries[each]) for by, each in keys if by == kind and each in entries]
        if names:
            found.append((KIND_TITLES[kind], sorted(names)))
    return found


def in_short(differences: Sequence[Difference]) -> str:
    """How many of what, as ``2 changed, 1 new``."""
    if not differences:
        return "Nothing changed at the bench."
    counts = Counter(each.state for each in differences)
    states = ("changed", "new", "gone", NOT_COMPARED)
    return ", ".join(f"{counts[state]} {state}" for state in states if counts[state]) + "."
