"""Reference pages for recipe writers: every finding code, and every field of an entry."""

import re
from collections.abc import Iterator
from dataclasses import MISSING
from functools import cache
from types import ModuleType
from typing import Any, NamedTuple

from markupsafe import Markup

from bowlbook.book.book import Book
from bowlbook.checks import code_of
from bowlbook.checks.run import CHECKS
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of, walk_fields
from bowlbook.pages.example import example_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.manual import FIELDS, FINDINGS
from bowlbook.pages.page import Heading, Page, SearchEntry
from bowlbook.pages.render import render
from bowlbook.reading.amount import counted
from bowlbook.reading.code import READING_CODES


class CodeText(NamedTuple):
    """A code, what it means in one sentence, and further text about it and its examples."""

    code: str
    lead: str
    text: str | Markup = ""
    wrong: str | Markup = ""
    right: str | Markup = ""


class FieldRow(NamedTuple):
    """One field of an entry."""

    key: str
    text: str
    must: bool
    public: bool


class FieldTable(NamedTuple):
    """The fields of one class of entry."""

    title: str
    anchor: str
    fields: list[FieldRow]

    @property
    def says(self) -> str:
        """How many fields, and which are needed."""
        needed = [each.key for each in self.fields if each.must and "." not in each.key]
        count = counted(len(self.fields), "field")
        return f"{count}; needed: {', '.join(needed)}" if needed else count


LABEL = re.compile(r"^(Why|Source|Wrong|Right): ", re.M)


def _of_check(check: ModuleType) -> CodeText:
    """A check's docstring as its page: the first line, then its labelled paragraphs."""
    lead, _, rest = (check.__doc__ or "").partition("\n")
    more, *labelled = LABEL.split(rest.strip())
    paragraphs = dict(zip(labelled[::2], labelled[1::2], strict=True))
    text = f"{more}\n\n**Why:** {paragraphs['Why']}\n\n**Source:** {paragraphs['Source']}"
    return CodeText(
        code_of(check), lead, free_text(text), free_text(paragraphs["Wrong"]), free_text(paragraphs["Right"])
    )


READING = [CodeText(code, text) for code, text in sorted(READING_CODES.items())]


@cache
def _checks() -> list[CodeText]:
    return [_of_check(check) for check in CHECKS]


def findings_page(book: Book) -> Page:
    """Every finding code with its meaning, from the docstrings of the checks."""
    groups = (
        ("reading", "While reading", READING),
        ("checks", "Checks of the whole book", sorted(_checks(), key=lambda each: each.code)),
    )
    body = render("findings.html", FINDINGS, groups=groups)
    title = "Findings and their codes"
    headings = tuple(Heading(anchor, title) for anchor, title, _ in groups)
    return Page(FINDINGS, title, "What a check can say, why, and how it is mended.", body, headings)


def finding_pages(book: Book) -> Iterator[Page]:
    """One page for each code: what it means, a wrong entry with its finding, and a right entry."""
    for each in (*READING, *_checks()):
        address = f"{FINDINGS}{each.code}/"
        body = render("finding.html", address, code=each, example=example_of(each.code))
        headings = (Heading("wrong", "Wrong"), Heading("right", "Right"))
        search = SearchEntry(each.code, each.lead, "Finding")
        yield Page(address, each.code, each.lead, body, headings, search)


def fields_page(book: Book) -> Page:
    """Every field of every entry, from the entries' own declarations."""
    kinds = field_tables()
    body = render("fields.html", FIELDS, kinds=kinds)
    headings = tuple(Heading(table.anchor, table.title) for table in kinds)
    return Page(FIELDS, "Every field", "Every field of every entry.", body, headings)


@cache
def field_tables() -> tuple[FieldTable, ...]:
    """The fields of each class of entry."""
    tables = []
    for kind in ENTRY_CLASSES:
        for cls in classes_of(kind):
            title = f"{kind}: {cls.__name__.lower()}" if kind == "product" else kind
            tables.append(FieldTable(title.capitalize(), title.replace(": ", "-"), _rows(cls)))
    return tuple(tables)


def _rows(cls: Any) -> list[FieldRow]:
    return [
        FieldRow(
            ".".join(way), spec.metadata["description"], spec.default is MISSING, spec.metadata["public"]
        )
        for way, spec in walk_fields(cls)
    ]
