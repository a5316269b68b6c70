"""Drafts tried beside the book before anything is written: what check would say of them."""

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from bowlbook.book.folder import FOLDER_OF, RESERVED, EntryFile, Folder
from bowlbook.book.read_book import book_of
from bowlbook.cache.cache import Cache
from bowlbook.checks.run import run_checks
from bowlbook.checks.unfinished import run_unfinished
from bowlbook.entries.entry_id import ID, LONGEST_ID
from bowlbook.entries.gap import GAP
from bowlbook.importing.draft import Draft
from bowlbook.importing.entry_text import entry_text
from bowlbook.reading.finding import Finding

OPEN = "not-filled-in"
"""The code of what is left open on purpose."""

MISSING = {"missing-cautions": "cautions"}
"""Checks that want a list to be there: the draft gets it, with a gap in it."""


Texts = dict[Path, tuple[Draft, str]]
"""Drafts with their texts, by the file that each becomes."""


def is_file_name(entry_id: str) -> bool:
    """Whether an id can be a file's name on every system."""
    return bool(ID.fullmatch(entry_id)) and len(entry_id) <= LONGEST_ID and not RESERVED.fullmatch(entry_id)


def try_drafts(
    root: Path, folder: Folder, drafts: Iterable[Draft], day: date
) -> tuple[Texts, list[tuple[Draft, Finding]]]:
    """The drafts that give no error but their gaps, also together with the book and each other.

    Then the others, and why.
    """
    texts = {root / FOLDER_OF[draft.kind] / f"{draft.id}.yml": (draft, entry_text(draft)) for draft in drafts}
    refused: list[tuple[Draft, Finding]] = []
    # What is wrong in the book without them is not the drafts' fault.
    before = {_seen(each) for each in _errors(folder, day)}
    # Without a refused draft others may be wrong, such as those that name it: until nothing is.
    while texts:
        wrong: dict[Path, Finding] = {}
        for each in _errors(_with(folder, texts), day):
            if _seen(each) not in before:
                for path in _culprits(each, texts):
                    wrong.setdefault(path, each)
        if not wrong:
            break
        for path, finding in wrong.items():
            draft, _ = texts.pop(path)
            missing = MISSING.get(finding.code)
            if missing is None or missing in draft.data:
                refused.append((draft, finding))
            else:
                draft.data[missing] = [GAP]
                draft.remarks[(missing, 0)] = finding.message
                texts[path] = draft, entry_text(draft)
    return texts, refused


def _seen(finding: Finding) -> tuple[str, str, str]:
    return finding.place.path, finding.code, finding.message


def _culprits(finding: Finding, texts: Texts) -> list[Path]:
    """The draft that an error is in. Of one in a file of the book: the drafts that it names, else all."""
    own = Path(finding.place.path)
    return [own] if own in texts else [path for path in texts if path.stem in finding.message] or list(texts)


def _with(folder: Folder, texts: Texts) -> Folder:
    new = [
        (EntryFile(draft.kind, draft.id, path.as_posix()), text.encode("utf-8"))
        for path, (draft, text) in texts.items()
    ]
    own = [each for each in folder.files if not each[0].shared]
    shared = [each for each in folder.files if each[0].shared]
    files = sorted([*own, *new], key=lambda each: each[0]) + shared
    return Folder(files, folder.findings, folder.no_shelf, folder.pictures)


def _errors(folder: Folder, day: date) -> list[Finding]:
    reading = book_of(folder, Cache())
    findings = list(reading.findings)
    if reading.book is not None:
        findings += run_checks(reading.book, day)
    if reading.unfinished is not None:
        findings += run_unfinished(*reading.unfinished, day)
    # Personal details are a warning elsewhere; nothing about a person is imported.
    errors = (each for each in findings if each.severity == "error" or each.code == "personal-details")
    return [each for each in errors if each.code != OPEN]
