"""Word for word the messages about amounts and texts, right and wrong: a record, looked over by hand.

A sentence that is changed on purpose is changed in ``words.yml`` too.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from tests.yaml_file import yaml_file

from bowlbook.reading import read_amount
from bowlbook.reading.document import read_text
from bowlbook.reading.finding import finding_text
from bowlbook.reading.refusal import Refusal

READERS: dict[str, Callable[[str], object]] = {
    "mass": read_amount.read_mass,
    "net": read_amount.read_net,
    "money": read_amount.read_money,
    "ratio": read_amount.read_ratio,
    "percent": read_amount.read_percent,
    "volume_strength": read_amount.read_volume_strength,
    "bare_volume": read_amount.read_bare_volume,
    "density": read_amount.read_density,
    "minutes": read_amount.read_minutes,
    "days": read_amount.read_days,
    "parts": read_amount.read_parts,
    "sections": lambda text: read_amount.read_whole(text, 1, 400, "sections"),
    "level": lambda text: read_amount.read_span(text, 1, 10, "a level"),
    "date": read_amount.read_date,
}
MANY = "a:\n" + "- x\n" * 10_001
RECORD = yaml_file(Path(__file__).with_name("words.yml"))


def message_of(reader: str, text: str) -> str:
    """The value that is read, or the code, message and mend of the refusal."""
    try:
        return str(READERS[reader](text))
    except Refusal as refusal:
        return f"{refusal.code}: {refusal.message} {refusal.mend}"


def document_messages(text: str) -> str:
    """Every finding of a text as it is printed; nothing where it can be read."""
    _, findings = read_text(MANY if text == "MANY" else text, "entry.yml", frozenset())
    return "\n".join(map(finding_text, findings))


@pytest.mark.parametrize(("reader", "text", "expected"), RECORD["amounts"], ids=range(len(RECORD["amounts"])))
def test_an_amount(reader: str, text: str, expected: str) -> None:
    assert message_of(reader, text) == expected


@pytest.mark.parametrize(("text", "expected"), RECORD["documents"], ids=range(len(RECORD["documents"])))
def test_a_document(text: str, expected: str) -> None:
    assert document_messages(text) == expected
