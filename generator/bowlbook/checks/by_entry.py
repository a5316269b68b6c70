"""Findings kept entry by entry: after an edit only what the edit can reach is checked anew.

A check says ``BY_ENTRY = True`` where what it finds in an entry follows from that entry, the entries that it
names and those that they name (`reach_of`), the house, the day and the book's facts. Exactly these make the
key under which the findings are kept, so that none can be stale; and after an edit the check sees no more of
the book than these: a test holds that it finds the same so. One that also says ``OF_HOUSE = True`` looks at
the house alone. All other checks are run each time, and go by the entries' outlines.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from bowlbook.book.book import Book, EntryKey
from bowlbook.book.folder import FOLDERS
from bowlbook.book.held import Part
from bowlbook.book.kept import Kept, as_rows, digest, of_rows, program
from bowlbook.book.outline import Outline
from bowlbook.checks.fact import facts_of, hand_on
from bowlbook.checks.judge import ROOMS
from bowlbook.checks.run import BY_ENTRY, WHOLE_BOOK
from bowlbook.reading.finding import Finding, in_order

HOUSE: EntryKey = ("house", "house")
Outlines = Mapping[EntryKey, Outline]


def run_kept(book: Book, today: date, kept: Kept) -> list[Finding]:
    """What `run_checks` finds, from the findings that are kept and, where none are, from the checks."""
    outlines = book.outlines()
    facts = repr(facts_of(book)).encode()
    base = digest(program(*ROOMS), today.isoformat().encode(), book.stamps[HOUSE], facts)
    keys = _keys(base, outlines, book.stamps)
    rows = {key: kept.get(keys[key]) for key in keys}
    fresh = _by_entry(book, today, [key for key in keys if rows[key] is None], outlines)
    for key, findings in fresh.items():
        kept.put(keys[key], as_rows(findings))
    kept.save()
    found = [finding for check in WHOLE_BOOK for finding in check.find(book, today)]
    found += [finding for findings in fresh.values() for finding in findings]
    found += [finding for each in rows.values() if each for finding in of_rows(each)]
    return in_order(found)


def _keys(base: bytes, outlines: Outlines, stamps: Mapping[EntryKey, bytes]) -> dict[EntryKey, bytes]:
    """For the house and each entry: what stands for all that its findings depend on.

    An entry's own stamp, and what stands for each entry that it leads to. Kinds lead to one another in one
    direction only, so that no entry leads back to itself.
    """
    deep: dict[EntryKey, bytes] = {}

    def of(key: EntryKey) -> bytes:
        if key not in deep:
            deep[key] = digest(stamps[key], *[of(each) for each in outlines[key].led_to])
        return deep[key]

    return {HOUSE: base, **{key: digest(base, of(key)) for key in outlines}}


def reach_of(key: EntryKey, outlines: Outlines) -> set[EntryKey]:
    """The entry itself, the entries that it names, those that they name, and so on.

    Whom ``instead`` names is not followed: what is taken instead is looked at by itself. The house reaches
    nothing else, and every entry is checked beside it.
    """
    seen, waiting = {key}, [key] if key != HOUSE else []
    while waiting:
        for each in outlines[waiting.pop()].led_to:
            if each not in seen:
                seen.add(each)
                waiting.append(each)
    return seen


def _by_entry(
    book: Book, today: date, wanted: list[EntryKey], outlines: Outlines
) -> dict[EntryKey, list[Finding]]:
    """The findings of the wanted entries, each with the entry that it is about."""
    found: dict[EntryKey, list[Finding]] = {key: [] for key in wanted}
    at = {book.of_kind(kind)[entry_id].source.path: (kind, entry_id) for kind, entry_id in wanted}
    part = part_of(book, wanted, {each for key in wanted for each in reach_of(key, outlines)})
    for check in BY_ENTRY if wanted else ():
        if HOUSE not in found and getattr(check, "OF_HOUSE", False):
            continue
        for finding in check.find(part, today):
            owner = finding.about or at.get(finding.place.path)
            if owner in found:
                found[owner].append(finding)
    return found


def part_of(book: Book, keys: Iterable[EntryKey], reach: Iterable[EntryKey]) -> Book:
    """These entries, gone through; those in reach, looked up; the house, and the facts of the whole book."""
    shown, beside = set(keys), set(reach)
    some: dict[str, Any] = {
        folder: Part(
            book.of_kind(kind),
            [entry_id for each, entry_id in shown if each == kind],
            [entry_id for each, entry_id in beside if each == kind],
        )
        for folder, kind in FOLDERS.items()
    }
    part = replace(book, **some)
    hand_on(book, part)
    return part
