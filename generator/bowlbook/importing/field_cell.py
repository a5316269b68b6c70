"""A cell whose field is known, with all that its meaning depends on beside its text."""

from typing import NamedTuple


class Column(NamedTuple):
    """``place``, ``number`` (which of several): from 0. ``unit``: what is said of its cells."""

    place: int
    header: str
    field: str
    number: int = 0
    unit: str = ""


class FieldCell(NamedTuple):
    """``text``, ``kind``: as in `Cell`. ``decimal``, ``days``: how the table writes them, if known."""

    text: str
    kind: str
    column: Column
    decimal: str = ""
    days: str = ""

    @property
    def unit(self) -> str:
        """The unit that is said of the whole column."""
        return self.column.unit

    @property
    def words(self) -> str:
        """The text with single spaces, also for line ends."""
        return " ".join(self.text.split())
