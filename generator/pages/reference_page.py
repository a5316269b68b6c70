"""Pages for whoever writes recipes: every code a check can give, and every field an entry can have."""

from dataclasses import MISSING, dataclass
from typing import Any

from markupsafe import Markup

from generator.checks.run import CHECKS, code_of
from generator.entries.validate import ENTRY_CLASSES, classes_of, walk_fields
from generator.pages.free_text import free_text
from generator.pages.page import Heading, Page
from generator.pages.render import render
from generator.reading.code import READING_CODES


@dataclass(frozen=True, slots=True)
class CodeText:
    """A code and what it means."""

    code: str
    text: str | Markup


@dataclass(frozen=True, slots=True)
class FieldRow:
    """One field of an entry."""

    key: str
    text: str
    must: bool
    public: bool


@dataclass(frozen=True, slots=True)
class FieldTable:
    """The fields of one class of entry."""

    title: str
    anchor: str
    fields: list[FieldRow]


def check_text(docstring: str) -> Markup:
    """A check's docstring as HTML; each of its labelled lines becomes a paragraph."""
    lines = []
    for line in docstring.strip().split("\n"):
        label, colon, rest = line.partition(": ")
        if colon and label in ("Why", "Source", "Wrong", "Right"):
            lines.append(f"\n**{label}:** {rest}")
        else:
            lines.append(line)
    return free_text("\n".join(lines))


def findings_page() -> Page:
    """Every finding code with its explanation, from the code itself."""
    address = "reference/findings/"
    body = render(
        "findings.html",
        address,
        reading=[CodeText(code, text) for code, text in sorted(READING_CODES.items())],
        checks=[CodeText(code_of(check), check_text(check.__doc__ or "")) for check in CHECKS],
    )
    title = "Findings and their codes"
    headings = (Heading("reading", "While reading"), Heading("checks", "Checks of the whole book"))
    return Page(address, title, "What a check can say, why, and how it is mended.", body, headings, None)


def fields_page() -> Page:
    """Every field of every entry, from the entries themselves."""
    address = "reference/fields/"
    kinds = []
    for kind in ENTRY_CLASSES:
        for cls in classes_of(kind):
            title = f"{kind}: {cls.__name__.lower()}" if kind == "product" else kind
            anchor = title.replace(": ", "-")
            kinds.append(FieldTable(title.capitalize(), anchor, _rows(cls)))
    body = render("fields.html", address, kinds=kinds)
    headings = tuple(Heading(table.anchor, table.title) for table in kinds)
    return Page(address, "Every field", "Every field of every entry.", body, headings, None)


def _rows(cls: Any) -> list[FieldRow]:
    return [
        FieldRow(
            ".".join(way),
            spec.metadata["description"],
            spec.default is MISSING and spec.default_factory is MISSING,
            spec.metadata["public"],
        )
        for way, spec in walk_fields(cls)
    ]
