"""References resolved: dangling, wrong in kind, doubled and circular ones become findings."""

from collections.abc import Iterator, Mapping, Set

from bowlbook.book.book import EntryKey, UsedBy
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.book.outline import ONCE, Outline
from bowlbook.book.reference import references
from bowlbook.entries.entry import Entry
from bowlbook.entries.facets import Facets, meet
from bowlbook.entries.partial import Unread
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.source import Loc

ByKind = Mapping[str, Mapping[str, Entry]]
"""Entries by kind, then by id."""
Outlines = Mapping[str, Mapping[str, Outline]]
Known = Mapping[str, Set[str]]

KIND_NAMES = {"class": "class notes"}


def link(entries: ByKind, known: Known) -> tuple[UsedBy, list[Finding], dict[EntryKey, set[Loc]]]:
    """Which entries use each; the findings; and for each entry the ways to its references that lead nowhere.

    ``known`` holds the ids of every file, also of files that could not be read: a reference to one of
    those is no mistake of its own. Outlines are enough; an entry itself is loaded where something is wrong.
    """
    used_by: dict[EntryKey, list[EntryKey]] = {}
    findings: list[Finding] = []
    broken: dict[EntryKey, set[Loc]] = {}
    outlines = {kind: outlines_of(by_id) for kind, by_id in entries.items()}
    for kind, by_id in outlines.items():
        for entry_id, outline in by_id.items():
            key = (kind, entry_id)
            named = [
                (to, target)
                for to, target, kinds in outline.named
                if (found := outlines[to].get(target)) is not None and _is_of(found, kinds)
            ]
            if outline.twice or len(named) < len(outline.named):
                named, wrong, ways = _one_by_one(entries[kind][entry_id], outlines, known)
                findings += wrong
                if ways:
                    broken[key] = ways
            for target_key in named:
                users = used_by.setdefault(target_key, [])
                if not users or users[-1] != key:
                    users.append(key)
    findings += _former_ids(entries, outlines, known)
    for kind in ("blend", "technique"):
        findings += _circles(entries.get(kind, {}), outlines.get(kind, {}))
    return {key: tuple(users) for key, users in used_by.items()}, findings, broken


def _is_of(found: Outline, kinds: tuple[str, ...]) -> bool:
    """Whether an entry is of one of these kinds of product, where that is asked for."""
    return not kinds or not found.product or found.product in kinds


def _one_by_one(
    entry: Entry, outlines: Outlines, known: Known
) -> tuple[list[EntryKey], list[Finding], set[Loc]]:
    """The entries that an entry names and that exist; the findings; and the ways to those that do not."""
    named: list[EntryKey] = []
    findings: list[Finding] = []
    ways: set[Loc] = set()
    seen: dict[tuple[object, ...], Loc] = {}
    for reference in references(entry):
        to, target = reference.ref.to, reference.id
        found = outlines.get(to, {}).get(target)
        wrong = _wrong(entry, reference.loc, reference.ref.kinds, to, target, outlines, known)
        if wrong is not None:
            findings.append(wrong)
        if found is None or wrong is not None:
            ways.add(reference.loc)
            continue
        named.append((to, target))
        findings += _doubled(entry, reference.loc, target, seen)
    return named, findings, ways


def _wrong(
    entry: Entry, loc: Loc, kinds: tuple[str, ...], to: str, target: str, outlines: Outlines, known: Known
) -> Finding | None:
    name = KIND_NAMES.get(to, to)
    found = outlines.get(to, {}).get(target)
    if found is None:
        if target in known.get(to, ()):
            return None
        now = next((each for each, other in outlines.get(to, {}).items() if target in other.formerly), None)
        mend = f'Write "{now}": that is its id now.' if now else did_you_mean(target, known.get(to, ()))
        mend = mend or f"Add it: bowlbook new {to}."
        return entry.source.finding(loc, "unknown-id", f'There is no {name} "{target}".', mend)
    if not _is_of(found, kinds):
        wanted = " or ".join(kinds)
        article = "an" if found.product[0] in "aeiou" else "a"
        message = f'"{target}" is {article} {found.product}; {wanted} is wanted here.'
        mend = f"Name a product whose kind is {wanted}."
        return entry.source.finding(loc, "wrong-kind", message, mend)
    return None


def _doubled(entry: Entry, loc: Loc, target: str, seen: dict[tuple[object, ...], Loc]) -> Iterator[Finding]:
    """The same entry named twice in one list, where twice makes no sense."""
    if loc[0] not in ONCE:
        return
    first = seen.setdefault((loc[0], target), loc)
    if first != loc:
        line = entry.source.place_of(first).line
        message = f'"{target}" is named here a second time; it is already on line {line}.'
        yield entry.source.finding(loc, "duplicate-reference", message, "Name it once.")


def _former_ids(entries: ByKind, outlines: Outlines, known: Known) -> Iterator[Finding]:
    """A former id that an entry has today, or that is claimed twice: its address leads to one page only."""
    for kind, by_id in outlines.items():
        claimed: dict[str, str] = {}
        for entry_id, outline in by_id.items():
            for index, former in enumerate(outline.formerly):
                owner = former if former in known.get(kind, ()) else claimed.setdefault(former, entry_id)
                if owner == entry_id and former != entry_id and former not in outline.formerly[:index]:
                    continue
                clash = _clash(kind, entry_id, former, owner)
                yield entries[kind][entry_id].source.finding(("formerly", index), "duplicate-id", *clash)


def _clash(kind: str, entry_id: str, former: str, owner: str) -> tuple[str, str]:
    """What is wrong with a former id, and the mend."""
    if owner == entry_id:
        again = "is the id of today" if former == entry_id else "is already in this list"
        return f'"{former}" {again}.', "Delete it here."
    if owner == former:
        mend = "Delete it here, or give the other entry another id."
        return f'There is a {kind} "{former}" today, so that address cannot lead here.', mend
    return f'The former id "{former}" already belongs to the {kind} "{owner}".', "Delete it here, or there."


def _circles(by_id: Mapping[str, Entry], outlines: Mapping[str, Outline]) -> Iterator[Finding]:
    """Chains of ``instead`` that lead one and the same head back to where it started."""
    for entry in [by_id[entry_id] for entry_id in _led_into_a_circle(outlines)]:
        for index, (instead, when) in enumerate(_refused(entry)):
            chain = _back_to(entry.id, instead, when, by_id, (entry.id,))
            if chain and min(chain) == entry.id:
                text = " → ".join((*chain, entry.id))
                message = f"For one and the same head this leads back here: {text}."
                mend = "End the chain at something that suits that head."
                yield entry.source.finding(("not_for", index, "instead"), "circular-reference", message, mend)


def _led_into_a_circle(outlines: Mapping[str, Outline]) -> list[str]:
    """The ids from which some chain of ``instead`` does not end, whatever the head: mostly none."""
    left = {entry_id: len(outline.instead) for entry_id, outline in outlines.items()}
    back: dict[str, list[str]] = {}
    for entry_id, outline in outlines.items():
        for target in outline.instead:
            back.setdefault(target, []).append(entry_id)
    ends = [entry_id for entry_id in {*left, *back} if not left.get(entry_id)]
    while ends:
        for entry_id in back.pop(ends.pop(), ()):
            left[entry_id] -= 1
            if not left[entry_id]:
                ends.append(entry_id)
    return [entry_id for entry_id, waiting in left.items() if waiting]


def _refused(entry: Entry) -> Iterator[tuple[str | None, Facets]]:
    """What an entry names instead, and for which head; None where either could not be read."""
    for refused in vars(entry).get("not_for", ()):
        try:
            meet(refused.when, refused.when)
            yield refused.instead, refused.when
        except Unread:
            yield None, Facets()


def _back_to(
    start: str, at: str | None, head: Facets, by_id: Mapping[str, Entry], way: tuple[str, ...]
) -> tuple[str, ...] | None:
    if at == start:
        return way
    if at is None or at not in by_id or at in way:
        return None
    for instead, when in _refused(by_id[at]):
        met = None if instead is None else meet(head, when)
        if met is not None:
            found = _back_to(start, instead, met, by_id, (*way, at))
            if found:
                return found
    return None
