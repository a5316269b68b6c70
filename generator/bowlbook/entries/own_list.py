"""Lists that come with the program, as YAML beside the module that declares them."""

from pathlib import Path
from typing import Any, TypeVar, cast

from bowlbook.entries.reader import reader_of

T = TypeVar("T")


def own_list(cls: type[T], name: str) -> T:
    """A list of this room by its file's name, read strictly as ``cls``. Raises `ValueError` for a mistake."""
    from bowlbook.reading.document import read_text

    file = Path(__file__).with_name(name)
    source, findings = read_text(file.read_text(encoding="utf-8"), name, frozenset())
    if findings or source.data is None:
        raise ValueError(f"{name}: {findings}")
    return cast(T, reader_of(cast(Any, cls))(source.data))
