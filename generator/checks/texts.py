"""Every text of an entry, with its place: what the checks of wording look through. Not a check itself."""

from collections.abc import Iterator

from generator.entries.entry import Entry
from generator.reading.source import Loc


def texts_of(entry: Entry) -> Iterator[tuple[Loc, str]]:
    """Each text that its author wrote, keys apart, in the order of the file."""
    yield from _texts(entry.source.data, ())


def public_texts_of(entry: Entry) -> Iterator[tuple[Loc, str]]:
    """Those of them that a copy for the public shows."""
    for loc, text in texts_of(entry):
        if not entry.source.is_private(loc):
            yield loc, text


def _texts(value: object, loc: Loc) -> Iterator[tuple[Loc, str]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _texts(inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _texts(inner, (*loc, index))
    elif isinstance(value, str):
        yield loc, value
