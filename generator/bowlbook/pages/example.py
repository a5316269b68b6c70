"""A wrong and a right example for each finding code, kept as data beside this module, one file a code."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from bowlbook.reading.document import read_source

EXAMPLES = Path(__file__).parent / "examples"


@dataclass(frozen=True, slots=True)
class Example:
    """Text as a writer would have it, or the commands that make it, and what ``check`` says of the wrong one.

    Files begin with a comment that names their path. What is said in a file of the small
    book stands in the place of the same keys there; a new file, or one with its kind, is whole.
    """

    wrong: str
    right: str
    says: str


@cache
def example_of(code: str) -> Example:
    """The example of a code. Raises `ValueError` where its file is missing or not as it must be."""
    path = EXAMPLES / f"{code}.yml"
    source, findings = read_source(path, path.name, frozenset())
    if findings or source.data is None or set(source.data) != {"wrong", "right", "says"}:
        raise ValueError(f"{path.name}: {[each.message for each in findings]}")
    return Example(**{key: str(text).rstrip("\n") for key, text in source.data.items()})
