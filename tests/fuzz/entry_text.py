"""One run over what a stranger may write: bytes to a text, to an entry or findings, its free text to HTML."""

import re
import time
from contextlib import suppress

from bowlbook.entries.entry import Entry
from bowlbook.entries.validate import ENTRY_CLASSES, known_keys, private_keys, validate
from bowlbook.entries.words import read_id
from bowlbook.pages.free_text import free_text
from bowlbook.reading.document import read_text
from bowlbook.reading.finding import finding_text
from bowlbook.reading.guard import CONTROL
from bowlbook.reading.refusal import Refusal

KINDS = tuple(ENTRY_CLASSES)
LONGEST = 2.0
"""Seconds of this processor that no entry may take."""
LARGEST = 200 * 1024 * 1024
"""Bytes of memory that no entry may take."""


def take(data: bytes) -> Entry | None:
    """Read bytes as an entry; the first byte says which kind. Raises AssertionError for what must not be."""
    began = time.process_time()
    kind = KINDS[data[0] % len(KINDS)] if data else KINDS[0]
    text = data[1:].decode("utf-8", "surrogateescape").replace("\r\n", "\n")
    source, findings = read_text(text, "entry.yml", private_keys(), known_keys())
    entry, more = validate(kind, "entry", source)
    for finding in (*findings, *more):
        assert finding.message and finding.code and finding.place.line >= 1 and finding.place.column >= 1
        assert not CONTROL.search(finding_text(finding).replace("\n", "")), finding.code
    assert entry is not None or findings or more
    for words in texts_of(source.data):
        html = free_text(words)
        assert not re.search(r"<(?!/?(?:[a-z]+|h[3-6])[ >])|href=\"(?!https?://)", html, re.I)
        with suppress(Refusal):
            read_id(words)
    assert time.process_time() - began < LONGEST
    return entry


def texts_of(value: object) -> list[str]:
    """The longer texts in what was read, where notes stand."""
    if isinstance(value, dict):
        return [text for inner in value.values() for text in texts_of(inner)]
    if isinstance(value, list):
        return [text for inner in value for text in texts_of(inner)]
    return [value] if isinstance(value, str) and 20 < len(value) <= 8000 else []
