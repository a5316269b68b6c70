"""Where something stands in a file."""

from typing import NamedTuple


class Place(NamedTuple):
    """A path as the reader typed it, and a line and column that both count from 1."""

    path: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"
