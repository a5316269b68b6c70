"""A report's table: rows that lead to entries, in the order of one of its columns."""

from typing import NamedTuple

from bowlbook.reading.amount import counted


class TableRow(NamedTuple):
    """A row: a link, then cells. ``mark`` draws attention to it."""

    name: str
    href: str
    cells: tuple[str, ...]
    mark: bool = False


class ReportTable(NamedTuple):
    """A table with its columns' heads; ``numbers`` are the columns that hold numbers, ``ordered_by`` the one
    that the rows are in order of."""

    title: str
    anchor: str
    heads: tuple[str, ...]
    items: tuple[TableRow, ...]
    none: str = "None."
    numbers: frozenset[int] = frozenset()
    ordered_by: int = 0

    def says(self) -> str:
        """What is in the table, for a shut fold: how many rows, and from which to which."""
        first, last = self.ends()
        rows = counted(len(self.items), "row")
        return f"{rows}: {first}" if first == last else f"{rows}: {first} to {last}"

    def ends(self) -> tuple[str, str]:
        """The first and the last row, by the column that orders them, for naming a page of a long table."""
        first, last = ((row.name, *row.cells)[self.ordered_by] for row in (self.items[0], self.items[-1]))
        return first, last
