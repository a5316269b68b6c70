"""The strip of ten levels, with those that an entry serves."""

from typing import NamedTuple

from bowlbook.entries.facets import Facets


class Strip(NamedTuple):
    """Served levels from ``low`` to ``high``. ``exposed``: target levels, shown by their pigment."""

    low: int
    high: int
    exposed: bool = False

    def __str__(self) -> str:
        span = str(self.low) if self.low == self.high else f"{self.low}–{self.high}"
        return f"on {span}" if self.exposed else span


def strip_of(facets: Facets) -> Strip | None:
    """The strip of what an entry is for: its natural levels, else the target levels that a toner is for."""
    span = facets.natural_level or facets.target_level
    return Strip(span.low, span.high, exposed=facets.natural_level is None) if span else None
