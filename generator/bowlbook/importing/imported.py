"""A whole table to drafts: its columns, its rows, the products they name, and every question on the way."""

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.book.folder import Folder
from bowlbook.entries.partial import Unread
from bowlbook.entries.product import Developer, Product
from bowlbook.importing.columns import Matched, with_every_row
from bowlbook.importing.draft import Draft, LeftOut, RowReader
from bowlbook.importing.number import Unclear
from bowlbook.importing.product import product_draft
from bowlbook.importing.question import Asked, Question, questions_of
from bowlbook.importing.recipe import recipe_draft
from bowlbook.importing.said import Said
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.table import BLANK, Row, Table
from bowlbook.importing.trial import is_file_name, try_drafts
from bowlbook.reading.finding import Finding, finding_of, sorted_findings
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import texts_in


@dataclass
class Imported:
    """What was made of a table. ``texts``: file to draft and text. ``rows``: how many are filled.

    ``questions``: those that one answer settles for many cells; each is a finding too.
    """

    rows: int = 0
    texts: dict[Path, tuple[Draft, str]] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    questions: dict[Finding, Question] = field(default_factory=dict)


class Target(NamedTuple):
    """The book that a table is imported into, ``root`` its folder; ``day``: today, for its checks.

    ``book``: as far as it could be read, with entries that have gaps, or name others that do not exist yet.
    """

    root: Path
    folder: Folder
    book: Book
    day: date


def read_rows(path: Path, table: Table, matched: Matched, said: Said, into: Target) -> Imported:
    """Every row of a table as an entry, or as a finding. Nothing is written."""
    taken = {(file.kind, file.id) for file, _ in into.folder.files}
    shelf = Shelf(_whole(into.book), [each for kind, each in taken if kind == "product"])
    made = Imported()
    drafts: list[Draft] = []
    asked: list[Asked] = []
    for rows in _groups(with_every_row(table, said), matched):
        made.rows += len(rows)
        reader = RowReader(path, rows, matched, said.decimal or matched.decimal_sign, said.days)
        with suppress(LeftOut):
            drafts.append(_draft(reader, shelf, matched.kind, into.book.house.currency))
        made.findings += reader.findings
        asked += reader.asked
    refusals = [(draft, _why_not(draft, taken, drafts)) for draft in drafts]
    column = next(each for each in matched.columns if each.field == "name").place + 1
    made.findings += [
        finding_of(why, Place(str(path), draft.row, column)) for draft, why in refusals if why is not None
    ]
    drafts = [draft for draft, why in refusals if why is None]
    named = _products_of(drafts)
    begun = [Draft("product", each, row, data) for each, (data, row) in shelf.begun.items() if each in named]
    texts, refused = try_drafts(into.root, into.folder, [*drafts, *begun], into.day)
    # The trial may have refused the only recipe that names a new product: that one is not begun then.
    named = _products_of(draft for draft, _ in texts.values())
    made.texts = {
        file: (draft, text)
        for file, (draft, text) in texts.items()
        if draft not in begun or draft.id in named
    }
    made.findings += [_refused(path, draft, each) for draft, each in refused]
    made.questions = {each.finding(path): each for each in questions_of(asked)}
    made.findings = sorted_findings([*made.findings, *made.questions])
    return made


def _whole(book: Book) -> dict[str, Product]:
    """The products of which what is asked here could be read."""
    found = {}
    for entry_id, product in book.products.items():
        with suppress(Unread):
            asked: list[object] = [product.kind, product.name, product.other_names]
            if isinstance(product, Developer):
                asked += [product.volume, product.peroxide]
            found[entry_id] = product
    return found


def _draft(reader: RowReader, shelf: Shelf, kind: str, currency: str) -> Draft:
    """The draft of a row, or of the rows that are one recipe. Raises `LeftOut`."""
    cells = reader.cells("name")
    mend = "Give it a name, or put all of a recipe into one row."
    try:
        name = reader.one("name")
        if name is None:
            raise Unclear("This row has no name. Does it belong to the row above it?", mend)
        if not all(each.text for each in cells):  # of a merged cell each row has the name
            raise Unclear("The row below has no name. Does it belong to this one?", mend)
        reader.refuse_persons()
        if kind == "recipe":
            return recipe_draft(reader, name, shelf)
        return product_draft(reader, name, currency)
    except Unclear as unclear:
        column = cells[0].column
        raise reader.leave_out(column, "row-left-out", unclear.question, unclear.mend) from unclear


def _groups(table: Table, matched: Matched) -> list[list[Row]]:
    """The rows under the column names, those of one recipe together. Merged cells count for all their rows.

    A row without a name goes with the one above it, so that neither is read as if it were all.
    """
    place = next(each.place for each in matched.columns if each.field == "name")
    inside = [each for each in table.merged if each[2] == each[3] and each[0] > matched.row.number]
    groups: list[list[Row]] = []
    for row in table.rows:
        if row.number <= matched.row.number or row.is_blank:
            continue
        values = list(row.cells)
        # The value of a merged range stands in its first cell; the others are blank.
        for first, last, column, _ in inside:
            if first < row.number <= last:
                top = next((each.cell(column) for each in table.rows if each.number == first), BLANK)
                values += [BLANK] * (column + 1 - len(values))
                values[column] = top
        filled = row._replace(cells=values)
        same = any(first < row.number <= last for first, last, column, _ in inside if column == place)
        if groups and (same or not filled.cell(place).text):
            groups[-1].append(filled)
        else:
            groups.append([filled])
    return groups


def _why_not(draft: Draft, taken: set[tuple[str, str]], drafts: list[Draft]) -> Refusal | None:
    """Why a draft's file cannot be made: it is there, has no possible name, or another row wants the same."""
    if not is_file_name(draft.id):
        message = f'No file can have the name "{draft.id[:60]}".'
        return Refusal("row-left-out", message, "Give it an id of small letters, digits and hyphens.")
    if (draft.kind, draft.id) in taken:
        message = f"The book has a {draft.kind} {draft.id} already; it is left as it is."
        return Refusal("already-there", message, "Change it in its own file, or give the row another id.")
    others = [each.row for each in drafts if each.id == draft.id and each is not draft]
    if others:
        message = f"Row {others[0]} has the same name or id; neither of them is written."
        return Refusal("row-left-out", message, "Give one of them another name, or an id.")
    return None


def _products_of(drafts: Iterable[Draft]) -> set[str]:
    """The ids of all products that drafts of blends name."""
    found = (each for draft in drafts for each in texts_in(draft.data))
    return {text for way, text in found if "also" in way or way[-1] == "product"}


def _refused(path: Path, draft: Draft, why: Finding) -> Finding:
    """A draft that check would refuse, at its row."""
    place = Place(str(path), draft.row, 1)
    if why.code == "personal-details":  # the id may be made of them
        refusal = Refusal("client-details", f"This row is not written. {why.message}", why.mend)
        return finding_of(refusal, place)
    message = f"{draft.id} is not written: {why.code}. {why.message}"
    return finding_of(Refusal("row-left-out", message, why.mend), place)
