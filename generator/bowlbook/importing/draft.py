"""A row of a table on its way to an entry: its cells by field, the questions they raise, what is open."""

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import takewhile
from pathlib import Path
from typing import Any, TypeVar

from bowlbook.entries.entry import shape_refusal
from bowlbook.entries.entry_id import id_from
from bowlbook.entries.gap import GAP
from bowlbook.entries.reader import Mistake, Wrong, reader_of
from bowlbook.entries.validate import private_keys
from bowlbook.formatting.order import class_of
from bowlbook.importing.columns import Matched
from bowlbook.importing.field_cell import Column, FieldCell
from bowlbook.importing.number import Unclear
from bowlbook.importing.question import Asked
from bowlbook.importing.table import BLANK, Row
from bowlbook.importing.words import titles
from bowlbook.reading.finding import Finding, Severity
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc, texts_in, value_at

T = TypeVar("T")
DASHES = ("-", "\N{EN DASH}", "\N{EM DASH}")
"""What people write into a cell that has no value."""
QUOTED = 60
"""Characters of a cell that a question or a remark repeats."""


@dataclass
class Draft:
    """An entry to be written. ``remarks``: the comment beside a gap, by its location."""

    kind: str
    id: str
    row: int
    data: dict[str, object]
    remarks: dict[Loc, str] = field(default_factory=dict)

    @property
    def entry_class(self) -> Any:
        """The class of the entry that it becomes."""
        return class_of(self.kind, str(self.data.get("kind", "")))

    @property
    def gaps(self) -> list[str]:
        """The fields that are left open, with points between their keys."""
        return [_field_at(way) for way, text in texts_in(self.data) if text == GAP]


class LeftOut(Exception):
    """A row that becomes no entry; its finding is in the reader."""


class RowReader:
    """Reads the cells of one row, or of several that are one recipe, and collects the questions."""

    def __init__(self, path: Path, rows: list[Row], matched: Matched, decimal: str, days: str = "") -> None:
        self.path = path
        self.rows = rows
        self.decimal = decimal
        self.days = days
        self.matched = matched
        self.findings: list[Finding] = []
        self.asked: list[Asked] = []
        self.remarks: dict[Loc, str] = {}

    @property
    def row(self) -> int:
        return self.rows[0].number

    def cells(self, name: str) -> list[FieldCell]:
        """The cells of a field that may have several columns, or several rows of one recipe, in order."""
        of_field = [each for each in self.matched.columns if each.field == name]
        columns = sorted(of_field, key=lambda each: each.number)
        return [self._cell(row, column) for row in self.rows for column in columns]

    def filled(self, name: str) -> list[FieldCell]:
        """Those of the cells of a field that say something."""
        return [each for each in self.cells(name) if each.text]

    def _cell(self, row: Row, column: Column) -> FieldCell:
        cell = row.cell(column.place)
        return FieldCell(*(BLANK if cell.text in DASHES else cell), column, self.decimal, self.days)

    def one(self, name: str) -> FieldCell | None:
        """The cell of a field with one column; None where there is none or it is blank.

        Of several rows that are one recipe, the one value that is in any of them. Raises `Unclear`.
        """
        filled = self.filled(name)
        if len(set(filled)) > 1:
            raise Unclear("The rows of this recipe say different things here.", "Write it once.")
        return filled[0] if filled else None

    def take(self, name: str, read: Callable[[FieldCell], T]) -> T | str | None:
        """What a cell says; None for a blank one, and a gap where it is not certain."""
        if not self.filled(name):
            return None
        cell = self.cells(name)[0]
        try:
            cell = self.one(name) or cell
            if cell.kind == "error":
                raise Unclear("The spreadsheet shows an error here.", "Mend the formula, or type the value.")
            return read(cell)
        except Unclear as unclear:
            self.ask(cell, unclear, tuple(name.split(".")))
            return GAP

    def entry_id(self, name: FieldCell) -> str:
        """The id that the table gives, else one made from the name. Raises `LeftOut`."""
        found = self.take("id", lambda cell: cell.text) or id_from(name.text)
        if not found or found == GAP:
            message = "No file can be named after this."
            mend = "Give it an id in a column of that name."
            raise self.leave_out(name.column, "row-left-out", message, mend)
        return found

    def ask(self, cell: FieldCell, unclear: Unclear, way: Loc) -> None:
        """List a question; and put what the table says beside the gap, unless that is private."""
        column = cell.column
        hidden = bool(private_keys() & set(column.field.split("."))) or _names_a_person(cell.text)
        shown = cell.words[:QUOTED]
        quoted = f'"{shown}": ' if shown and not hidden else ""
        if unclear.answers:
            self.asked.append(Asked(column, self.row, "" if hidden else shown, unclear))
        else:
            message = f"{column.header}: {quoted}{unclear.question}"
            self.find(column, "unclear-cell", message, unclear.mend)
        self.remarks[way] = f"row {self.row}" + (f" says {shown}" if quoted else f", column {column.header}")

    def find(
        self, column: Column, code: str, message: str, mend: str, severity: Severity = "warning"
    ) -> None:
        """Add a finding at the cell of a column."""
        place = Place(str(self.path), self.row, column.place + 1)
        self.findings.append(Finding(place, code, message, mend, severity=severity))

    def leave_out(self, column: Column, code: str, message: str, mend: str) -> LeftOut:
        """The row becomes no entry, for this reason."""
        self.find(column, code, message, mend, "error")
        return LeftOut()

    def refuse_persons(self) -> None:
        """Raises `LeftOut` where a cell names a person: nothing of that row is kept."""
        for column in self.matched.columns:
            if any(_names_a_person(row.cell(column.place).text) for row in self.rows):
                message = f"{column.header}: a person seems to be named here; the row is not read."
                raise self.leave_out(column, "client-details", message, "Take the name out.")

    def draft(self, kind: str, entry_id: str, data: dict[str, Any]) -> Draft:
        """The draft with a gap for each missing value; and for each refused one, with a question."""
        stated = {key: value for key, value in data.items() if value not in (None, [])}
        draft = Draft(kind, entry_id, self.row, stated, self.remarks)
        # Reading stops at the first mistake inside a list, so that the next one shows in the next round.
        for _ in range(3):
            try:
                reader_of(draft.entry_class)(draft.data)
                break
            except Wrong as wrong:
                for mistake in wrong.mistakes:
                    self._mend(draft, mistake)
        return draft

    def _mend(self, draft: Draft, mistake: Mistake) -> None:
        refusal = _refusal_of(mistake)
        if mistake.given == GAP or refusal.code == "not-filled-in":
            return
        if mistake.what == "too short" and value_at(draft.data, mistake.way) == GAP:
            return
        way = (*mistake.way, *refusal.way)
        if mistake.what == "missing":
            _put_gap(draft.data, way)
            return
        message, mend = refusal.unquoted if private_keys() & set(way) else (refusal.message, refusal.mend)
        way = way if way[:1] in (("lighteners",), ("toners",), ("additives",)) else _named(way)
        column = self._column_of(way)
        if column is not None:
            self.ask(self._cell(self.rows[0], column), Unclear(message, mend), way)
        _put_gap(draft.data, way or ("name",))

    def _column_of(self, way: Loc) -> Column | None:
        """The column that a value came from."""
        name = _field_at(way)
        columns = self.matched.columns
        fit = [each for each in columns if name.startswith(each.field) or each.field.startswith(name)]
        return max(fit, key=lambda each: len(each.field), default=None)


def _names_a_person(text: str) -> bool:
    return titles().search(text) is not None


def _field_at(way: Loc) -> str:
    """The keys of a location with points between them, as a table's columns are named."""
    return ".".join(step for step in way if isinstance(step, str))


def _named(way: Loc) -> Loc:
    """The location up to the first list index: the whole list is open then."""
    return tuple(takewhile(lambda step: isinstance(step, str), way))


def _refusal_of(mistake: Mistake) -> Refusal:
    if isinstance(mistake.given, Refusal):
        return mistake.given
    if mistake.what == "shape":
        return shape_refusal(mistake.given, mistake.wanted)
    return Refusal("unclear-cell", "This does not belong here.", "Write it into the entry by hand.")


def _put_gap(data: dict[str, object], way: Loc) -> None:
    """Set a value to the gap. A text where a mapping is needed is replaced by one."""
    holder: Any = data
    for step in way[:-1]:
        inner = holder.get(step) if isinstance(holder, dict) else holder[step]
        if not isinstance(inner, dict | list):
            inner = holder[step] = {}
        holder = inner
    holder[way[-1]] = GAP
