"""Where something stands in a file."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A path as the reader typed it, and a line and column that both count from 1."""

    path: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}"
