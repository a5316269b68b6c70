"""Which column of a table is which field: by its name, or by what a person said; never by what is in it."""

import re
from collections.abc import Container
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from bowlbook.importing.cells import unit_of
from bowlbook.importing.field_cell import Column
from bowlbook.importing.number import Unclear
from bowlbook.importing.said import LEAVE_OUT, NUMBERED, ROW_KINDS, Said, numbered
from bowlbook.importing.table import BLANK, MOST_COLUMNS, Cell, Row, Table
from bowlbook.importing.words import columns, fields, simplified, words
from bowlbook.reading.bare_name import bare_name
from bowlbook.reading.finding import Finding, finding_of
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.place import Place
from bowlbook.reading.refusal import Refusal

WEIGHED = {
    "lighteners": "lighteners.parts",
    "toners": "toners.parts",
    "developer.product": "developer.amount",
}
"""The field of a weight or volume, by the field of what is weighed: *Clay (oz)* holds ounces, not clays."""
SHORT = 4
"""Characters of a column's name that are too few to look for one like it."""
HEAD_ROWS = 10
"""How far down the row of column names is looked for."""


@dataclass
class Matched:
    """The columns of a table. ``unknown``: those that a person must say; ``person``: those never read."""

    kind: str
    row: Row
    columns: list[Column] = field(default_factory=list)
    unknown: list[tuple[int, str, str]] = field(default_factory=list)
    person: list[tuple[int, str]] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)

    @property
    def decimal_sign(self) -> str:
        """The decimal sign of a table from ``bowlbook export``, by its columns' names; else nothing."""
        own = any("." in each.field and each.header == each.field for each in self.columns)
        return "." if own else ""

    def add(self, column: Column) -> None:
        """Add a column; of a field that may have several, with the next number. Raises `Unclear`."""
        before = [each.number for each in self.columns if each.field == column.field]
        if before and column.number == 0 and column.field in NUMBERED:
            column = column._replace(number=max(before) + 1)
        elif before and column.number <= max(before):
            raise Unclear(f"Another column is {column.field} already.")
        self.columns.append(column)


def kind_of(table: Table, said: Said) -> str:
    """What a row is: a recipe or a product. Raises `Refusal` where that is not certain."""
    if said.rows:
        return ROW_KINDS[said.rows]
    for kind, telling in (("recipe", {"lighteners", "toners"}), ("product", {"kind"})):
        if any(each.field in telling for each in match_columns(table, kind, said).columns):
            return kind
    why = "There is no column of lighteners, and none of kinds."
    mend = "Say it with --rows recipes or --rows products, and name the columns."
    raise Refusal("bad-table", f"Is a row of this table a recipe or a product? {why}", mend)


def match_columns(table: Table, kind: str, said: Said) -> Matched:
    """The columns of a table for one kind of row. Raises `Refusal` where there is no row of names."""
    row = _head(table, said)
    matched = Matched(kind, row)
    certain = _certain(row, kind, said)
    for place, cell in enumerate(row.cells):
        header = " ".join(cell.text.split())
        given = said.columns.get(bare_name(header))
        if not header:
            if any(each.cell(place).text for each in table.rows if each.number > row.number):
                matched.unknown.append((place, "", "This column has no name."))
        elif is_person(header):
            matched.person.append((place, header))
        elif given == LEAVE_OUT:
            matched.left_out.append(header)
        else:
            try:
                if given:
                    column = Column(place, header, *numbered(given), _unit(header))
                else:
                    column = _known(place, header, kind, certain)
                matched.add(column._replace(unit=said.means.get(bare_name(header), column.unit)))
            except Unclear as unclear:
                matched.unknown.append((place, header, unclear.question))
    for place, name in enumerate(said.every_row, MOST_COLUMNS):
        if any(each.field == name for each in matched.columns):
            matched.unknown.append((place, name, f"Another column is {name} already."))
        matched.columns.append(Column(place, f"every_row {name}", name))
    return matched


def with_every_row(table: Table, said: Said) -> Table:
    """The table with what is the same in every row in columns behind all others."""
    # Behind the last column that a table can have, so that they cover none of its own.
    more = [Cell(text) for text in said.every_row.values()]

    def longer(row: Row) -> Row:
        return row._replace(cells=[*row.cells, *[BLANK] * (MOST_COLUMNS - len(row.cells)), *more])

    rows = [row if row.is_blank else longer(row) for row in table.rows]
    return table._replace(rows=rows) if more else table


def _certain(row: Row, kind: str, said: Said) -> frozenset[str]:
    """The fields that a person has said, or that a column's name can only be."""
    given = {name: numbered(field)[0] for name, field in said.columns.items()}
    headers = [" ".join(cell.text.split()) for cell in row.cells]
    fits = [columns(kind).get(simplified(each), ()) for each in headers if bare_name(each) not in given]
    return frozenset([*given.values(), *(fit[0] for fit in fits if len(fit) == 1)])


def _head(table: Table, said: Said) -> Row:
    """The row of column names: of the first rows the one in which most names are known, of either kind."""
    rows = [row for row in table.rows[:HEAD_ROWS] if sum(bool(cell.text) for cell in row.cells) > 1]
    if not rows:
        mend = "Write one above the rows: name, lightener, parts, developer, ratio."
        raise Refusal("bad-table", "There is no row of column names in this table.", mend)

    def known(row: Row) -> int:
        headers = [cell.text for cell in row.cells if cell.text]
        return max(sum(_is_known(header, kind, said) for header in headers) for kind in ROW_KINDS.values())

    # Of equals the upper one: a row of entries may hold words that are names of columns too.
    return max(rows, key=lambda row: (known(row), -row.number))


def _is_known(header: str, kind: str, said: Said) -> bool:
    with suppress(Unclear):
        return bare_name(header) in said.columns or is_person(header) or bool(_known(0, header, kind))
    return False


def is_person(header: str) -> bool:
    """Whether a column's name says that its cells describe a person."""
    text = f" {simplified(header)} "
    return any(f" {word} " in text for word in words("person"))


def _unit(header: str) -> str:
    """What stands in brackets in a column's name, a % in it, or the unit that is its last word."""
    found = re.search(r"[(\[]\s*([^)\]]{1,12}?)\s*[)\]]", header)
    if found or "%" in header:
        return found[1] if found else "%"
    last = header.split()[-1]
    return last if unit_of(last) else ""


def _known(place: int, header: str, kind: str, certain: Container[str] = ()) -> Column:
    """The column of a known name. Raises `Unclear`."""
    unit = _unit(header)
    without_brackets = re.sub(r"[(\[][^)\]]*[)\]]", " ", header).replace("%", " ")
    bare = simplified(without_brackets.removesuffix(unit))
    found = re.fullmatch(r"(.*?)\s*\b([1-9])\b\s*(.*)", bare)
    for name, number in (
        (simplified(header), 0),
        (bare, 0),
        (f"{found[1]} {found[3]}".strip(), int(found[2]) - 1) if found else ("", 0),
    ):
        fit = columns(kind).get(name, ())
        if len(fit) > 1:  # not a field that another column certainly has
            fit = tuple(each for each in fit if each not in certain) or fit
        if len(fit) > 1:
            raise Unclear(f"This may be {' or '.join(fit)}.")
        if fit and (not number or fit[0] in NUMBERED):
            is_amount = name != simplified(header) and unit_of(unit)
            field = WEIGHED.get(fit[0], fit[0]) if is_amount else fit[0]
            return Column(place, header, field, number, unit)
    raise Unclear("This column's name is not known.")


def column_findings(path: Path, matched: Matched) -> list[Finding]:
    """A finding for each column that is never read, and for each that a person must say."""

    def finding(place: int, code: str, message: str, mend: str) -> Finding:
        return finding_of(Refusal(code, message, mend), Place(str(path), matched.row.number, place + 1))

    found: list[Finding] = []
    for place, header in matched.person:
        message = f'The column "{header}" looks like a person\'s details and is not read.'
        mend = "A book holds recipes, not people. Take the column out of the table."
        found.append(finding(place, "client-details", message, mend)._replace(severity="warning"))
    names = {each.field: each for each in matched.columns}
    if matched.person and "name" in names and simplified(names["name"].header) in words("bare_names"):
        column = names["name"]
        message = (
            f"Is \"{column.header}\" the recipe's name, or a client's? Beside it are columns about people."
        )
        mend = "Rename it to Recipe, or take every column about people out of the table."
        found.append(finding(column.place, "client-details", message, mend))
    free = ", ".join(each for each in fields(matched.kind) if each not in names)
    for count, (place, header, why) in enumerate(matched.unknown):
        mend = _how_to_say(matched, header) + ("" if count else f" Fields without a column: {free}.")
        found.append(finding(place, "unclear-column", f'"{header}": {why}' if header else why, mend))
    if "name" not in names and not matched.unknown:
        message = "There is no column of names."
        found.append(finding(0, "unclear-column", message, "Name one, or say which with --columns."))
    return found


def _how_to_say(matched: Matched, header: str) -> str:
    if not header:
        return "Give it a name in the table."
    # A refusal is never suggested: heads that are read for refused ones, or the reverse, are a danger.
    names = [name for name, fit in columns(matched.kind).items() if "not_for" not in fit]
    close = did_you_mean(simplified(header), names) if len(header) > SHORT else ""
    mend = f'Say what it is in a file for --columns, under columns: "{header}": FIELD, or: leave out.'
    return f"{close} {mend}" if close.startswith("Did") else mend
