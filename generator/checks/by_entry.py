"""Findings kept entry by entry: after an edit only what the edit can reach is checked anew.

A check says ``BY_ENTRY = True`` where what it finds in an entry follows from that entry, the entries that it
names and those that they name (`reach_of`), the house, the day and the book's facts. Exactly these make the
key under which the findings are kept, so that none can be stale; and after an edit the check sees no more of
the book than these: a test holds that it finds the same so.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from generator.book.book import Book, EntryKey
from generator.book.folder import FOLDERS
from generator.book.kept import Kept, as_rows, digest, of_rows, program
from generator.book.reference import references
from generator.checks.fact import facts_of, hand_on
from generator.checks.judge import ROOMS
from generator.checks.run import BY_ENTRY, WHOLE_BOOK
from generator.entries.entry import Entry
from generator.reading.finding import Finding, in_order

HOUSE: EntryKey = ("house", "house")


def run_kept(book: Book, today: date, kept: Kept) -> list[Finding]:
    """What `run_checks` finds."""
    entries = {HOUSE: book.house, **{(kind, entry.id): entry for kind, entry in book.entries()}}
    reaches = reach_of(entries)
    facts = repr(facts_of(book)).encode()
    base = digest(program(*ROOMS), today.isoformat().encode(), book.stamps[HOUSE], facts)
    keys = {
        key: digest(base, repr(key).encode(), *(book.stamps[each] for each in sorted(reach)))
        for key, reach in reaches.items()
    }
    rows = {key: kept.get(keys[key]) for key in entries}
    fresh = _by_entry(book, today, {key: entries[key] for key in entries if rows[key] is None}, reaches)
    for key, findings in fresh.items():
        kept.put(keys[key], as_rows(findings))
    kept.save()
    found = [finding for check in WHOLE_BOOK for finding in check.find(book, today)]
    found += [finding for findings in fresh.values() for finding in findings]
    found += [finding for each in rows.values() if each for finding in of_rows(each)]
    return in_order(found)


def reach_of(entries: Mapping[EntryKey, Entry]) -> dict[EntryKey, frozenset[EntryKey]]:
    """Of each entry: itself, the entries that it names, those that they name, and so on.

    Whom ``instead`` names is not followed: what is taken instead is looked at by itself. The house reaches
    nothing else, and every entry is checked beside it.
    """
    named = {
        key: [(each.ref.to, each.id) for each in references(entry) if each.loc[-1] != "instead"]
        for key, entry in entries.items()
        if key != HOUSE
    }
    found: dict[EntryKey, frozenset[EntryKey]] = {HOUSE: frozenset({HOUSE})}
    for key in named:
        seen, waiting = {key}, [key]
        while waiting:
            for each in named[waiting.pop()]:
                if each not in seen:
                    seen.add(each)
                    waiting.append(each)
        found[key] = frozenset(seen)
    return found


def _by_entry(
    book: Book,
    today: date,
    wanted: Mapping[EntryKey, Entry],
    reaches: Mapping[EntryKey, frozenset[EntryKey]],
) -> dict[EntryKey, list[Finding]]:
    """The findings of the wanted entries, each with the entry that it is about."""
    found: dict[EntryKey, list[Finding]] = {key: [] for key in wanted}
    at = {entry.source.path: key for key, entry in wanted.items()}
    part = part_of(book, {each for key in wanted for each in reaches[key]})
    for check in BY_ENTRY if wanted else ():
        for finding in check.find(part, today):
            owner = finding.about or at.get(finding.place.path)
            if owner in found:
                found[owner].append(finding)
    return found


def part_of(book: Book, keys: Iterable[EntryKey]) -> Book:
    """The house and these entries, with the facts of the whole book."""
    inside = set(keys)
    some: dict[str, Any] = {
        folder: {each: entry for each, entry in book.of_kind(kind).items() if (kind, each) in inside}
        for folder, kind in FOLDERS.items()
    }
    part = replace(book, **some)
    hand_on(book, part)
    return part
