"""A whole table to drafts: its columns, its rows, the products they name, and every question on the way."""

from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from bowlbook.book.book import Book
from bowlbook.book.folder import Folder
from bowlbook.book.read_book import ReadResult
from bowlbook.entries.partial import Unread
from bowlbook.entries.product import Developer, Product
from bowlbook.importing.columns import Matched, Said, decimal_sign_of, with_every_row
from bowlbook.importing.draft import Draft, LeftOut, RowReader
from bowlbook.importing.number import Unclear
from bowlbook.importing.product import product_draft
from bowlbook.importing.question import Asked, Question, questions_of
from bowlbook.importing.recipe import recipe_draft
from bowlbook.importing.shelf import Shelf
from bowlbook.importing.table import BLANK, Row, Table
from bowlbook.importing.trial import is_file_name, try_drafts
from bowlbook.reading.finding import Finding, finding_of, sorted_findings
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal


@dataclass
class Imported:
    """What was made of a table. ``texts``: file to draft and text. ``rows``: how many are filled.

    ``questions``: those that one answer settles for many cells; each is a finding too.
    """

    rows: int = 0
    texts: dict[Path, tuple[Draft, str]] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)
    questions: dict[Finding, Question] = field(default_factory=dict)


def read_rows(
    path: Path,
    table: Table,
    matched: Matched,
    said: Said,
    root: Path,
    folder: Folder,
    reading: ReadResult,
    day: date,
) -> Imported:
    """Every row of a table as an entry, or as a finding. Nothing is written."""
    book = book_in(reading)
    assert book is not None
    taken = {(file.kind, file.id) for file, _ in folder.files}
    shelf = Shelf(_whole(book), [each for kind, each in taken if kind == "product"])
    made = Imported()
    table = with_every_row(table, said)
    read: list[tuple[RowReader, Draft]] = []
    asked: list[Asked] = []
    for rows in _groups(table, matched):
        made.rows += len(rows)
        reader = RowReader(path, rows, matched, said.decimal or decimal_sign_of(matched), said.days)
        with suppress(LeftOut):
            read.append((reader, _draft(reader, shelf, matched.kind, book.house.currency)))
        made.findings += reader.findings
        asked += reader.asked
    drafts: dict[str, Draft] = {}
    for reader, draft in read:
        why = _why_not(draft, taken, [each for _, each in read])
        if why is None:
            drafts[draft.id] = draft
        else:
            place = Place(str(path), draft.row, reader.columns["name", 0].place + 1)
            made.findings.append(finding_of(why, place))
    used = {each for draft in drafts.values() for each in _products_of(draft.data)}
    begun = [
        Draft("product", entry_id, row, data)
        for entry_id, (data, row) in shelf.begun.items()
        if entry_id in used
    ]
    trial = try_drafts(root, folder, [*drafts.values(), *begun], day)
    used = {each for draft, _ in trial.texts.values() for each in _products_of(draft.data)}
    made.texts = {
        file: (draft, text)
        for file, (draft, text) in trial.texts.items()
        if draft.id not in shelf.begun or draft.kind != "product" or draft.id in used
    }
    made.findings += [_refused(path, draft, each) for draft, each in trial.refused]
    made.questions = {each.finding(path): each for each in questions_of(asked)}
    made.findings = sorted_findings([*made.findings, *made.questions])
    return made


def book_in(reading: ReadResult) -> Book | None:
    """The book as far as it could be read: entries with gaps too, and those that name what is to come."""
    return reading.book if reading.unfinished is None else reading.unfinished[0]


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
    place = reader.columns["name", 0].place
    try:
        name = reader.one("name")
    except Unclear as unclear:
        raise reader.leave_out(place, "row-left-out", unclear.question, unclear.mend) from unclear
    if name is None:
        message = "This row has no name. Does it belong to the row above it?"
        raise reader.leave_out(
            place, "row-left-out", message, "Give it a name, or put all of a recipe into one row."
        )
    if reader.rows[0].number != reader.rows[-1].number and not _is_merged(reader):
        message = "The row below has no name. Does it belong to this one?"
        raise reader.leave_out(
            place, "row-left-out", message, "Give it a name, or put all of a recipe into one row."
        )
    try:
        return recipe_draft(reader, shelf) if kind == "recipe" else product_draft(reader, currency)
    except Unclear as unclear:
        raise reader.leave_out(place, "row-left-out", unclear.question, unclear.mend) from unclear


def _is_merged(reader: RowReader) -> bool:
    """Whether the rows have one name, from a merged cell."""
    return all(cell.text for _, cell in reader.cells("name"))


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


def _products_of(value: Any) -> list[str]:
    """Every id that a blend's data names."""
    if isinstance(value, dict):
        found = [value[key] for key in ("product",) if isinstance(value.get(key), str)]
        also = value.get("also")
        found += also if isinstance(also, list) else []
        return found + [each for inner in value.values() for each in _products_of(inner)]
    if isinstance(value, list):
        return [each for inner in value for each in _products_of(inner)]
    return []


def _refused(path: Path, draft: Draft, why: Finding) -> Finding:
    """A draft that check would refuse, at its row."""
    place = Place(str(path), draft.row, 1)
    if why.code == "personal-details":  # the id may be made of them
        return finding_of(
            Refusal("client-details", f"This row is not written. {why.message}", why.mend), place
        )
    message = f"{draft.id} is not written: {why.code}. {why.message}"
    return finding_of(Refusal("row-left-out", message, why.mend), place)
