"""What changed at the bench between two states of a book, in figures as people read them off."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields
from fractions import Fraction
from typing import Any

from generator.book.book import Book, EntryKey
from generator.entries.blend import Blend
from generator.entries.class_notes import ClassNotes
from generator.entries.entry import Entry, authored, is_part, yaml_key
from generator.entries.technique import Technique
from generator.figures.bowl import Bowl, CannotWeigh, Pour, ladder_of, mix
from generator.figures.cost import decimal_of
from generator.figures.kit import kit, kit_plan
from generator.figures.rounding import decimals_of, fixed
from generator.figures.service import CannotPlan, plan
from generator.reading.amount import plain

NOT_TOLD = ("reviewed", "formerly")
"""Fields about the writing, not about the bench."""


MONEY = ("price", "priced_on")
"""Fields that are not for the public and still told, since who may run this reads them in the entries."""

STAGES = ("house", "product", "blend", "technique", "situation", "class")
"""From the shelf to the class: who uses whom, beside those that only point to one another instead."""
CANNOT = "cannot be weighed"
Renames = set[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that is different: what, how it was, how it is. None: it was not there, or is not.

    ``money``: it is about what something costs, and changes nothing at the scale.
    """

    what: str
    before: str | None
    after: str | None
    money: bool = False


@dataclass(frozen=True, slots=True)
class Difference:
    """An entry that is new, gone or changed, and who should know: the techniques, heads and classes with it.

    ``was``: its former id, where it was renamed.
    """

    kind: str
    id: str
    name: str
    was: str | None
    state: str
    facts: tuple[Fact, ...]
    known_by: tuple[EntryKey, ...]


def differences(old: Book, new: Book) -> list[Difference]:
    """Every entry that differs, in the order of the new book; those that are gone last.

    Amounts at each size of the ladder, peroxide and costs are worked out in both books, so that a price or a
    scale's step shows in every bowl it touches. A renamed entry is followed by its ``formerly``.
    """
    found: list[Difference] = []
    renamed = _renamed(old, new)
    house = tuple(_fields(old.house, new.house, renamed))
    if house:
        found.append(Difference("house", "house", new.house.title, None, "changed", house, ()))
    seen: set[EntryKey] = set()
    touched = _touched(old, new)
    for kind, entry in new.entries():
        if (kind, entry.id) not in touched:
            seen.add((kind, entry.id))
            continue
        before = _predecessor(old, new, kind, entry)
        if before is None:
            found.append(_told(new, kind, entry, None, "new", ()))
            continue
        seen.add((kind, before.id))
        facts = [*_fields(before, entry, renamed), *_worked_out(old, new, before, entry)]
        if before.id != entry.id:
            facts.insert(0, Fact("id", before.id, entry.id))
        if facts:
            was = before.id if before.id != entry.id else None
            found.append(_told(new, kind, entry, was, "changed", tuple(facts)))
    for kind, entry in old.entries():
        if (kind, entry.id) not in seen:
            found.append(_told(old, kind, entry, None, "gone", ()))
    return found


def _touched(old: Book, new: Book) -> set[EntryKey]:
    """The entries of which anything may differ: those that do, and whatever uses them, at however many hands.

    All of them where the house is another.
    """
    then = {(kind, entry.id): entry for kind, entry in old.entries()}
    now = {(kind, entry.id): entry for kind, entry in new.entries()}
    if old.house != new.house:
        return set(now)
    found = {key for key in then.keys() | now.keys() if then.get(key) != now.get(key)}
    ahead = list(found)
    while ahead:
        key = ahead.pop()
        for user in (*old.used_by.get(key, ()), *new.used_by.get(key, ())):
            if user not in found:
                found.add(user)
                ahead.append(user)
    return found


def _predecessor(old: Book, new: Book, kind: str, entry: Entry) -> Entry | None:
    by_id = old.of_kind(kind)
    if entry.id in by_id:
        return by_id[entry.id]
    for former in getattr(entry, "formerly", ()):
        if former in by_id and former not in new.of_kind(kind):
            return by_id[former]
    return None


def _told(
    book: Book, kind: str, entry: Entry, was: str | None, state: str, facts: tuple[Fact, ...]
) -> Difference:
    name = str(getattr(entry, "name", entry.id))
    return Difference(kind, entry.id, name, was, state, facts, _known_by(book, (kind, entry.id)))


def _known_by(book: Book, key: EntryKey) -> tuple[EntryKey, ...]:
    """The techniques, situations and classes that use an entry, directly or through others."""
    found: dict[EntryKey, None] = {}
    ahead = [key]
    while ahead:
        used = ahead.pop()
        for user in book.used_by.get(used, ()):
            if user not in found and STAGES.index(user[0]) > STAGES.index(used[0]):
                found[user] = None
                ahead.append(user)
    return tuple(sorted(user for user in found if user[0] in ("technique", "situation", "class")))


def _renamed(old: Book, new: Book) -> Renames:
    """Ids that went from one to another: a reference that only follows is no change."""
    return {
        (before.id, entry.id)
        for kind, entry in new.entries()
        if (before := _predecessor(old, new, kind, entry)) is not None and before.id != entry.id
    }


def _fields(before: Entry, after: Entry, renamed: Renames) -> Iterator[Fact]:
    """Authored fields that differ. What is not for the public is told without its words."""
    if type(before) is not type(after):
        yield Fact("kind", type(before).__name__.lower(), type(after).__name__.lower())
        return
    for spec in authored(type(after)):
        if spec.name not in NOT_TOLD:
            one, other = getattr(before, spec.name), getattr(after, spec.name)
            yield from _values(_words(spec), one, other, spec, renamed)


def _values(what: str, one: Any, other: Any, spec: Any, renamed: Renames) -> Iterator[Fact]:
    """Two values, taken apart as far as a reader wants them; nothing where they are the same."""
    if one == other or (isinstance(one, str) and (one, other) in renamed):
        return
    if not spec.metadata.get("public", False) and spec.name not in MONEY:
        yield Fact(what, None, None)
    elif is_part(one) and type(one) is type(other):
        for inner in fields(one):
            way = f"{what}, {_words(inner)}"
            yield from _values(way, getattr(one, inner.name), getattr(other, inner.name), inner, renamed)
    elif isinstance(one, tuple) and isinstance(other, tuple):
        yield from _lists(what, one, other, spec, renamed)
    else:
        before, after = (None if each is None else _said(each) for each in (one, other))
        yield Fact(what, before, after, spec.name in MONEY)


def _lists(
    what: str, one: tuple[Any, ...], other: tuple[Any, ...], spec: Any, renamed: Renames
) -> Iterator[Fact]:
    """Two lists: item by item where they are parts and as many, else what went and what came."""
    if len(one) == len(other) and all(map(is_part, (*one, *other))):
        for place, (before, after) in enumerate(zip(one, other, strict=True), 1):
            yield from _values(f"{what} {place}", before, after, spec, renamed)
        return
    gone = [each for each in one if each not in other and not any((each, now) in renamed for now in other)]
    come = [each for each in other if each not in one and not any((was, each) in renamed for was in one)]
    yield from (Fact(what, _said(each), None) for each in gone)
    yield from (Fact(what, None, _said(each)) for each in come)
    if sorted(map(_said, one)) == sorted(map(_said, other)):
        yield Fact(f"{what}, order", ", ".join(map(_said, one)), ", ".join(map(_said, other)))


def _words(spec: Any) -> str:
    """A field's key in words."""
    return yaml_key(spec.name).replace("_", " ")


def _said(value: Any) -> str:
    """A value as its author would write it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Fraction):
        return plain(value)
    if isinstance(value, tuple):
        return ", ".join(map(_said, value))
    if is_part(value):
        said = [(spec, getattr(value, spec.name)) for spec in fields(value)]
        return ", ".join(
            f"{yaml_key(spec.name)} {_said(each)}" for spec, each in said if each not in (None, ())
        )
    return str(value)


def _worked_out(old: Book, new: Book, before: Entry, after: Entry) -> Iterator[Fact]:
    """What the figures make of an entry in either book."""
    if isinstance(before, Blend) and isinstance(after, Blend):
        yield from _bowls(_mixed(old, before), _mixed(new, after), old, new)
    elif isinstance(before, Technique) and isinstance(after, Technique):
        costs = _attempt(lambda: _service_cost(old, before)), _attempt(lambda: _service_cost(new, after))
        yield from _if_different("cost of a service, medium hair", *costs, money=True)
    elif isinstance(before, ClassNotes) and isinstance(after, ClassNotes):
        costs = _attempt(lambda: _kit_cost(old, before)), _attempt(lambda: _kit_cost(new, after))
        yield from _if_different("cost of the kit", *costs, money=True)


def _attempt(work: Callable[[], str | None]) -> str | None:
    try:
        return work()
    except (CannotPlan, CannotWeigh, ValueError):
        return None


def _service_cost(book: Book, technique: Technique) -> str | None:
    return _money(book, plan(book, technique, "medium", "medium", book.house.scale_step.first).total)


def _kit_cost(book: Book, notes: ClassNotes) -> str | None:
    return _money(book, kit(kit_plan(book, notes), notes.learners).cost)


def _cost(book: Book, bowl: Bowl) -> str | None:
    return _money(book, bowl.bill.total if bowl.bill else None)


def _money(book: Book, minor: int | None) -> str | None:
    amount = decimal_of(minor, book.house.currency)
    return None if amount is None else f"{amount} {book.house.currency}"


Sizes = dict[tuple[str, Fraction], Bowl | None]


def _mixed(book: Book, blend: Blend) -> Sizes:
    """The blend's bowl at each size; None for a size that cannot be weighed."""
    found: Sizes = {}
    for unit, batch, step in ladder_of(book, blend):
        try:
            found[(unit, batch)] = mix(book, blend, unit, batch, step)
        except CannotWeigh:
            found[(unit, batch)] = None
    return found


def _bowls(one: Sizes, other: Sizes, old: Book, new: Book) -> Iterator[Fact]:
    for size in dict.fromkeys([*one, *other]):
        label = f"{plain(size[1])} {size[0]}"
        if size not in other:
            yield Fact(f"batch of {label}", "one of the sizes", None)
        elif size not in one:
            bowl = other[size]
            yield Fact(f"batch of {label}", None, _weights(bowl, bowl.pours) if bowl else CANNOT)
        else:
            yield from _bowl(label, one[size], other[size])
    for unit in ("oz", "g"):
        both = [(size, one[size], other[size]) for size in other if size in one and size[0] == unit]
        priced = [(size, was, now) for size, was, now in both if was and now and was.bill and now.bill]
        sizes = ", ".join(plain(size[1]) for size, _, _ in priced)
        before = ", ".join(_cost(old, was) or "" for _, was, _ in priced)
        after = ", ".join(_cost(new, now) or "" for _, _, now in priced)
        yield from _if_different(f"cost at {sizes} {unit}", before, after, money=True)


def _bowl(label: str, was: Bowl | None, now: Bowl | None) -> Iterator[Fact]:
    if was is None or now is None:
        before, after = (CANNOT if bowl is None else _weights(bowl, bowl.pours) for bowl in (was, now))
        yield from _if_different(f"batch of {label}", before, after)
        return
    one, other = list(was.pours), list(now.pours)
    if [each.product.id for each in one] == [each.product.id for each in other]:
        pairs = list(zip(one, other, strict=True))
        one = [each for each, now_ in pairs if each.reading.weigh != now_.reading.weigh]
        other = [now_ for each, now_ in pairs if each.reading.weigh != now_.reading.weigh]
    yield from _if_different(f"weigh for {label}", _weights(was, one), _weights(now, other))
    yield from _if_different(f"scale shows for {label}", _shown(was), _shown(now))
    strength = (f"{fixed(bowl.peroxide, 2)} %" for bowl in (was, now))
    yield from _if_different(f"peroxide in {label}", *strength)
    yield from _if_different(f"weighs honestly at {label}", _said(was.honest), _said(now.honest))


def _weights(bowl: Bowl, pours: Sequence[Pour]) -> str:
    places = decimals_of(bowl.step)
    return ", ".join(f"{fixed(each.reading.weigh, places)} {each.product.name}" for each in pours)


def _shown(bowl: Bowl) -> str:
    return ", ".join(fixed(each.scale_shows, decimals_of(bowl.step)) for each in bowl.pours)


def _if_different(what: str, before: str | None, after: str | None, *, money: bool = False) -> Iterator[Fact]:
    if before != after:
        yield Fact(what, before, after, money)
