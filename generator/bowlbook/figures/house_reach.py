"""Who should know of a change in the house's own entry: whose figures, limits or rules it changes."""

from collections.abc import Set

from bowlbook.book.book import Book, EntryKey
from bowlbook.entries.facets import meet
from bowlbook.entries.house import House
from bowlbook.figures.changed_fields import same

AT_THE_SCALE = ("batches", "scale_step", "rounding_tolerance", "hair_amounts", "waste_allowance", "any_batch")
"""Fields of the house that decide what is weighed out."""


def reached(old: Book, new: Book, refigured: Set[EntryKey]) -> set[EntryKey]:
    """The blends, techniques, situations and classes of the new book that a change of the house concerns.

    ``refigured``: the entries of which a figure at the scale differs. They count where a field of
    `AT_THE_SCALE` differs. Another limit on the scalp concerns every technique on the scalp with its blends,
    and every blend that suits a scalp; another legal limit every blend; another rule the situations whose
    hair it names; another lift in a visit every situation. What uses these is not included.
    """
    found: set[EntryKey] = set()
    if any(_differs(old.house, new.house, name) for name in AT_THE_SCALE):
        found |= refigured
    if _differs(old.house, new.house, "on_scalp_developer_limit"):
        found |= _on_scalp(new)
    if _differs(old.house, new.house, "limits"):
        found |= {("blend", entry_id) for entry_id in new.blends}
    if any(_differs(old.house, new.house, name) for name in ("lift_in_a_visit", "weeks_between_visits")):
        found |= {("situation", entry_id) for entry_id in new.situations}
    return found | _ruled(old, new)


def _differs(old: House, new: House, name: str) -> bool:
    return not same(getattr(old, name), getattr(new, name))


def _on_scalp(book: Book) -> set[EntryKey]:
    """Techniques on the scalp, the blends in their bowls, and the blends that suit a scalp."""
    found: set[EntryKey] = set()
    for technique in book.techniques.values():
        if technique.placement == "on-scalp":
            found.add(("technique", technique.id))
            found |= {("blend", bowl.blend) for bowl in technique.bowls}
    return found | {
        ("blend", blend.id) for blend in book.blends.values() if "on-scalp" in blend.suits.placement
    }


def _ruled(old: Book, new: Book) -> set[EntryKey]:
    """The situations whose hair is named by a rule that only one of the two houses has."""
    rules = [rule for rule in old.house.rules if rule not in new.house.rules]
    rules += [rule for rule in new.house.rules if rule not in old.house.rules]
    return {
        ("situation", each.id)
        for each in new.situations.values()
        if any(meet(each.hair, rule.when) is not None for rule in rules)
    }
