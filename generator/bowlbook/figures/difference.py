"""What changed at the bench between two states of a book, entry by entry, and who should know."""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from bowlbook.book.book import Book, EntryKey
from bowlbook.entries.blend import Blend
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.entry import Entry
from bowlbook.entries.technique import Technique
from bowlbook.figures.changed_bowls import changed_bowls
from bowlbook.figures.changed_fields import Renames, Terms, changed_fields
from bowlbook.figures.changed_services import changed_kit, changed_services
from bowlbook.figures.cost import minor_units
from bowlbook.figures.fact import Fact
from bowlbook.figures.house_reach import reached

STAGES = ("house", "product", "blend", "technique", "situation", "class", "trouble")
"""The kinds in the order of use, from the shelf to the class; an ``instead`` is not a use."""

CONCERNED = ("blend", "technique", "situation", "class")
"""The kinds of entries that a change of the house may concern."""
NOT_COMPARED = "not compared"


class Difference(NamedTuple):
    """An entry that is new, gone or changed, and who should know: techniques, situations and classes with it.

    ``state``: new, gone, changed, or `NOT_COMPARED` where the other book has the entry's file and could not
    read it whole. ``was``: its former id, where it was renamed. ``known_by`` of the house includes blends.
    """

    kind: str
    id: str
    name: str
    was: str | None
    state: str
    facts: tuple[Fact, ...]
    known_by: tuple[EntryKey, ...]


def differences(old: Book, new: Book) -> list[Difference]:
    """Every entry that differs: the house, then the rest in the order of the new book, then those gone.

    Authored fields are compared, and the figures computed in both books, so that a price or a scale's step
    shows in every bowl it changes. A renamed entry is followed by its ``formerly``. An entry that one of the
    books could not read whole (`Book.unread`) is not compared.
    """
    found: list[Difference] = []
    refigured: set[EntryKey] = set()
    renamed = _renamed(old, new)
    terms = Terms(renamed, minor_units(new.house.currency))
    seen: set[EntryKey] = set()
    touched = _touched(old, new)
    for kind, entry in new.entries():
        key = (kind, entry.id)
        if key not in touched:
            seen.add(key)
            continue
        before = _predecessor(old, new, kind, entry)
        if before is None:
            state = NOT_COMPARED if _unread(old, new, kind, entry) else "new"
            found.append(_difference(new, kind, entry, None, state, ()))
            continue
        seen.add((kind, before.id))
        figures = list(_changed_figures(old, new, before, entry, renamed))
        if any(not fact.money for fact in figures):
            refigured.add(key)
        facts = [*changed_fields(before, entry, terms), *figures]
        was = before.id if before.id != entry.id else None
        if was:
            facts.insert(0, Fact("id", before.id, entry.id))
        if facts:
            found.append(_difference(new, kind, entry, was, "changed", tuple(facts)))
    for kind, entry in old.entries():
        if (kind, entry.id) not in seen:
            state = NOT_COMPARED if (kind, entry.id) in new.unread else "gone"
            found.append(_difference(old, kind, entry, None, state, ()))
    return [*_house(old, new, terms, refigured), *found]


def _house(old: Book, new: Book, terms: Terms, refigured: set[EntryKey]) -> Iterator[Difference]:
    facts = tuple(changed_fields(old.house, new.house, terms))
    if facts:
        keys = reached(old, new, refigured)
        users = {user for key in keys for user in _known_by(new, key)}
        known = tuple(sorted(key for key in keys | users if key[0] in CONCERNED))
        yield Difference("house", "house", new.house.title, None, "changed", facts, known)


def _touched(old: Book, new: Book) -> set[EntryKey]:
    """The entries of which anything may differ: those that do, and whatever uses them, directly or not.

    All of them where the house is another.
    """
    then = {(kind, entry.id): entry for kind, entry in old.entries()}
    now = {(kind, entry.id): entry for kind, entry in new.entries()}
    if old.house != new.house:
        return set(now)
    differing = {key for key in then.keys() | now.keys() if then.get(key) != now.get(key)}
    return _with_users(differing, lambda key: (*old.used_by.get(key, ()), *new.used_by.get(key, ())))


def _with_users(start: set[EntryKey], users: Callable[[EntryKey], Iterable[EntryKey]]) -> set[EntryKey]:
    """Some entries, their users, the users of these, and so on."""
    found, ahead = set(start), list(start)
    while ahead:
        for user in users(ahead.pop()):
            if user not in found:
                found.add(user)
                ahead.append(user)
    return found


def _ids_of(new: Book, kind: str, entry: Entry) -> tuple[str, ...]:
    """The id of an entry of the new book, then its former ones that no other entry has now."""
    formers = getattr(entry, "formerly", ())
    return (entry.id, *(each for each in formers if each not in new.of_kind(kind)))


def _predecessor(old: Book, new: Book, kind: str, entry: Entry) -> Entry | None:
    by_id = old.of_kind(kind)
    return next((by_id[each] for each in _ids_of(new, kind, entry) if each in by_id), None)


def _unread(old: Book, new: Book, kind: str, entry: Entry) -> bool:
    """Whether the old book has the file of an entry, under this id or a former one, and could not read it."""
    return any((kind, entry_id) in old.unread for entry_id in _ids_of(new, kind, entry))


def _difference(
    book: Book, kind: str, entry: Entry, was: str | None, state: str, facts: tuple[Fact, ...]
) -> Difference:
    name = str(getattr(entry, "name", entry.id))
    bought = state == "changed" and all(fact.money for fact in facts)  # nobody at the scale need know
    known = () if bought else _known_by(book, (kind, entry.id))
    return Difference(kind, entry.id, name, was, state, facts, known)


def _known_by(book: Book, key: EntryKey) -> tuple[EntryKey, ...]:
    """The techniques, situations and classes that use an entry, directly or through others."""

    # Only from an earlier stage to a later one: an ``instead`` names an entry and does not use it.
    def later(used: EntryKey) -> list[EntryKey]:
        stage = STAGES.index(used[0])
        return [user for user in book.used_by.get(used, ()) if STAGES.index(user[0]) > stage]

    found = _with_users({key}, later) - {key}
    return tuple(sorted(user for user in found if user[0] in ("technique", "situation", "class")))


def _renamed(old: Book, new: Book) -> Renames:
    """Kind, old id and new id of each renamed entry: a reference that only follows is no change."""
    return {
        (kind, before.id, entry.id)
        for kind, entry in new.entries()
        if (before := _predecessor(old, new, kind, entry)) is not None and before.id != entry.id
    }


def _changed_figures(old: Book, new: Book, before: Entry, after: Entry, renamed: Renames) -> Iterator[Fact]:
    """The figures of an entry that differ between the books."""
    was = {now: then for kind, then, now in renamed if kind == "product"}
    if isinstance(before, Blend) and isinstance(after, Blend):
        yield from changed_bowls(old, new, before, after, was)
    elif isinstance(before, Technique) and isinstance(after, Technique):
        yield from changed_services(old, new, before, after)
    elif isinstance(before, ClassNotes) and isinstance(after, ClassNotes):
        yield from changed_kit(old, new, before, after, was)
