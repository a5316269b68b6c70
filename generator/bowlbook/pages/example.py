"""A wrong and a right example for each finding code, as data: one file of ``examples/`` for each code."""

from functools import cache
from pathlib import Path
from typing import NamedTuple

from bowlbook.reading.document import read_source

EXAMPLES = Path(__file__).parent / "examples"


class Example(NamedTuple):
    """The wrong and the right text, or the commands that make it, and what ``check`` prints for the wrong.

    Each file in a text begins with a comment that names its path. Its keys replace those of the same file
    in the small book of the tests; a new file, or one that gives its kind, is a complete entry.
    """

    wrong: str
    right: str
    says: str


@cache
def example_of(code: str) -> Example:
    """The example of a code. Raises `ValueError` where its file is not in the expected shape."""
    path = EXAMPLES / f"{code}.yml"
    source, findings = read_source(path, path.name, frozenset())
    if findings or source.data is None or set(source.data) != {"wrong", "right", "says"}:
        faults = " ".join(each.message for each in findings)
        raise ValueError(
            f"Every finding has an example on its page, with the keys wrong, right and says: {path}. {faults}"
        )
    return Example(**{key: str(text).rstrip("\n") for key, text in source.data.items()})
