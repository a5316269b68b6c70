"""What the manual has under a word, as plain text: a page, a finding, a kind of entry, a field, a heading."""

import re
from collections.abc import Iterator

from bowlbook.checks import code_of
from bowlbook.checks.run import CHECKS
from bowlbook.pages.example import example_of
from bowlbook.pages.manual import TITLES, manual_files
from bowlbook.pages.reference_page import FieldRow, FieldTable, field_tables
from bowlbook.reading.code import READING_CODES
from bowlbook.reading.nearest import did_you_mean

SECTION = re.compile(r"(?m)^(?=##? )")
FENCE = re.compile(r"(?ms)^```.*?^```")


def help_text(word: str) -> str | None:
    """Everything that the manual has under a word; None where that is nothing.

    A word is the name of a page (write), a finding's code (zero-reading), a kind (blend), a field
    (mixing_ratio or mixing_ratio.usual), else words of a heading.
    """
    wanted = word.casefold().strip()
    found = [*_pages(wanted), *_finding(wanted), *_kind(wanted), *_fields(wanted)]
    found = found or list(_sections(wanted))
    return "\n\n".join(found) or None


def contents_text() -> str:
    """The words that help can be asked for."""
    pages = "\n".join(f"  {name:12} {title}" for name, title in TITLES.items())
    kinds = ", ".join(each.title.rpartition(" ")[2].lower() for each in field_tables())
    rest = "Or a finding's code, a field, or a word of a heading."
    return f"Pages:\n{pages}\n\nFields of an entry: {kinds}\n\n{rest}"


def nearest_text(word: str) -> str:
    """A closing question for a word that the manual does not have; empty where none is alike."""
    codes = [*READING_CODES, *map(code_of, CHECKS)]
    keys = [part for table in field_tables() for row in table.fields for part in row.key.split(".")]
    return did_you_mean(word, {*TITLES, *codes, *keys})


def _pages(wanted: str) -> Iterator[str]:
    for name, path in zip(TITLES, manual_files().values(), strict=True):
        if wanted == name:
            yield path.read_text(encoding="utf-8").strip()


def _finding(wanted: str) -> Iterator[str]:
    texts = {code_of(check): check.__doc__ or "" for check in CHECKS} | READING_CODES
    if wanted in texts:
        example = example_of(wanted)
        parts = [f"# {wanted}", texts[wanted].strip()]
        parts += ["Wrong:", _indented(example.wrong), "check says:", _indented(example.says)]
        yield "\n\n".join([*parts, "Right:", _indented(example.right)])


def _kind(wanted: str) -> Iterator[str]:
    for table in field_tables():
        title = table.title.lower()
        if wanted in (title, title.rpartition(": ")[2], title.partition(":")[0]):
            yield _table(table, table.fields)


def _fields(wanted: str) -> Iterator[str]:
    for table in field_tables():
        rows = [row for row in table.fields if f".{row.key}".endswith(f".{wanted}")]
        if rows:
            inner = [row for row in table.fields if any(row.key.startswith(f"{each.key}.") for each in rows)]
            yield _table(table, rows + inner)


def _table(table: FieldTable, rows: list[FieldRow]) -> str:
    lines = [f"  {row.key}{' (must be there)' if row.must else ''}: {row.text}" for row in rows]
    return "\n".join([f"# {table.title}", "", *dict.fromkeys(lines)])


def _sections(wanted: str) -> Iterator[str]:
    """Sections of the pages whose heading has all the words."""
    words = wanted.split()
    for path in manual_files().values():
        text = path.read_text(encoding="utf-8")
        fences = [range(*each.span()) for each in FENCE.finditer(text)]
        starts = [
            at.start() for at in SECTION.finditer(text) if not any(at.start() in each for each in fences)
        ]
        for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
            section = text[start:end]
            heading = section.partition("\n")[0].casefold()
            if words and all(each in heading for each in words):
                yield section.strip()


def _indented(text: str) -> str:
    return "\n".join(f"    {line}".rstrip() for line in text.split("\n"))
