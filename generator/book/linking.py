"""References resolved: dangling, wrong in kind, doubled and circular ones become findings."""

from collections.abc import Mapping, Set

from generator.book.book import EntryKey
from generator.book.reference import references
from generator.entries.entry import Entry
from generator.entries.facets import Facets, meet
from generator.entries.product import Product
from generator.reading.finding import Finding
from generator.reading.nearest import did_you_mean
from generator.reading.source import Loc

Entries = Mapping[str, Mapping[str, Entry]]
"""Entries by kind, then by id."""

KIND_NAMES = {"class": "class notes"}


def link(
    entries: Entries, known: Mapping[str, Set[str]]
) -> tuple[dict[EntryKey, tuple[EntryKey, ...]], list[Finding], set[EntryKey]]:
    """Who uses whom; the findings; and the entries with a reference that leads nowhere.

    ``known`` holds the ids of every file, also of files that could not be read: a reference to one of
    those is no mistake of its own.
    """
    used_by: dict[EntryKey, list[EntryKey]] = {}
    findings: list[Finding] = []
    broken: set[EntryKey] = set()
    for kind, by_id in entries.items():
        for entry in by_id.values():
            seen: dict[tuple[object, ...], Loc] = {}
            for reference in references(entry):
                to, target = reference.ref.to, reference.id
                found = entries.get(to, {}).get(target)
                wrong = _wrong(entry, reference.loc, reference.ref.kinds, to, target, found, known)
                if wrong is not None:
                    findings.append(wrong)
                if found is None or wrong is not None:
                    broken.add((kind, entry.id))
                    continue
                users = used_by.setdefault((to, target), [])
                if (kind, entry.id) not in users:
                    users.append((kind, entry.id))
                findings += _doubled(entry, reference.loc, target, seen)
    findings += _former_ids(entries)
    for kind in ("blend", "technique"):
        findings += _circles(entries.get(kind, {}))
    return {key: tuple(users) for key, users in used_by.items()}, findings, broken


def _wrong(
    entry: Entry,
    loc: Loc,
    kinds: tuple[str, ...],
    to: str,
    target: str,
    found: Entry | None,
    known: Mapping[str, Set[str]],
) -> Finding | None:
    name = KIND_NAMES.get(to, to)
    if found is None:
        if target in known.get(to, ()):
            return None
        mend = did_you_mean(target, known.get(to, ())) or f"Add it: bowlbook new {to}."
        return entry.source.finding(loc, "unknown-id", f'There is no {name} "{target}".', mend)
    if kinds and isinstance(found, Product) and found.kind not in kinds:
        wanted = " or ".join(kinds)
        article = "an" if found.kind[0] in "aeiou" else "a"
        return entry.source.finding(
            loc,
            "wrong-kind",
            f'"{target}" is {article} {found.kind}; {wanted} is wanted here.',
            f"Name a product whose kind is {wanted}.",
        )
    return None


def _doubled(entry: Entry, loc: Loc, target: str, seen: dict[tuple[object, ...], Loc]) -> list[Finding]:
    """The same entry named twice in one list, where twice makes no sense."""
    if loc[0] not in ("lighteners", "toners", "additives", "supplies", "for_each_learner", "developer"):
        return []
    key = (loc[0], target)
    if key in seen:
        line = entry.source.place_of(seen[key]).line
        return [
            entry.source.finding(
                loc,
                "duplicate-reference",
                f'"{target}" is named here a second time; it is already on line {line}.',
                "Name it once.",
            )
        ]
    seen[key] = loc
    return []


def _former_ids(entries: Entries) -> list[Finding]:
    """A former id that is in use again, or that two entries claim."""
    findings = []
    for kind, by_id in entries.items():
        claimed: dict[str, str] = {}
        for entry in by_id.values():
            for index, former in enumerate(getattr(entry, "formerly", ())):
                owner = former if former in by_id else claimed.get(former)
                if owner is None:
                    claimed[former] = entry.id
                    continue
                findings.append(
                    entry.source.finding(
                        ("formerly", index),
                        "duplicate-id",
                        f'The former id "{former}" already belongs to the {kind} "{owner}".',
                        "Delete it here, or there.",
                    )
                )
    return findings


def _circles(by_id: Mapping[str, Entry]) -> list[Finding]:
    """Chains of ``instead`` that lead one and the same head back to where it started."""
    findings = []
    for entry in by_id.values():
        for index, refused in enumerate(getattr(entry, "not_for", ())):
            chain = _back_to(entry.id, refused.instead, refused.when, by_id, (entry.id,))
            if chain and min(chain) == entry.id:
                text = " → ".join((*chain, entry.id))
                findings.append(
                    entry.source.finding(
                        ("not_for", index, "instead"),
                        "circular-reference",
                        f"For one and the same head this leads back here: {text}.",
                        "End the chain at something that suits that head.",
                    )
                )
    return findings


def _back_to(
    start: str, at: str | None, head: Facets, by_id: Mapping[str, Entry], way: tuple[str, ...]
) -> tuple[str, ...] | None:
    if at == start:
        return way
    if at is None or at not in by_id or at in way:
        return None
    for refused in getattr(by_id[at], "not_for", ()):
        met = meet(head, refused.when)
        if met is not None:
            found = _back_to(start, refused.instead, met, by_id, (*way, at))
            if found:
                return found
    return None
