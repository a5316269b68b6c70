"""What a reader of the whole book would object to: one module a check, named after its code."""

from collections.abc import Iterator
from types import ModuleType
from typing import Any

from bowlbook.reading.finding import Finding


def code_of(check: ModuleType) -> str:
    """The code of a check: its module's name with hyphens."""
    return check.__name__.rpartition(".")[2].replace("_", "-")


def found_by(check: ModuleType, *given: Any) -> Iterator[Finding]:
    """What a check's ``find`` finds in what it is given, under the check's code."""
    for finding in check.find(*given):
        yield finding._replace(code=code_of(check))
