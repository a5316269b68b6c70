"""What an editor underlines in an amount is wrong, and most of what is wrong is underlined.

Source: the library ``jsonschema`` (JSON Schema draft 2020-12); ruamel.yaml (YAML 1.2) reads the texts.
"""

import datetime
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML
from ruamel.yaml.constructor import SafeConstructor

from bowlbook.book.known_ids import known_ids
from bowlbook.book.shelf_folder import read_folder
from bowlbook.checks.judge import judge
from bowlbook.entries import amounts, facets, hair_amount, ladder
from bowlbook.entries.entry import Reads
from bowlbook.entries.schema import schema_of
from bowlbook.reading.refusal import Refusal
from checks.small_book import SmallBook

WRONG = yaml.load(Path(__file__).with_name("wrong_blends.yml").read_text(encoding="utf-8"), yaml.BaseLoader)


class Core(SafeConstructor):
    """YAML 1.2's core rules, by which an editor reads: they know no dates."""


Core.add_constructor("tag:yaml.org,2002:timestamp", lambda _, node: node.value)


def read(text: str) -> Any:
    reader = YAML(typ="safe", pure=True)
    reader.Constructor = Core
    return reader.load(text)


def fields_with_patterns() -> Iterator[tuple[str, Reads]]:
    for module in (amounts, facets, hair_amount, ladder):
        for name, value in vars(module).items():
            for note in get_args(value)[1:]:
                if isinstance(note, Reads) and "examples" in note.schema:
                    yield name, note


FIELDS = dict(fields_with_patterns())


def test_every_amount_has_a_pattern() -> None:
    assert len(FIELDS) > 15
    assert [name for name, note in FIELDS.items() if "pattern" not in note.json_schema()] == []


@pytest.mark.parametrize("name", list(FIELDS))
def test_examples_are_read_and_fit(name: str) -> None:
    schema = FIELDS[name].json_schema()
    for example in schema["examples"]:
        FIELDS[name].read(example)
        assert Draft202012Validator(schema).is_valid(example)
        assert Draft202012Validator(schema).is_valid(read(example))


NUMBERS = st.from_regex(r"(0|[1-9][0-9]{0,3})(\.[0-9]{1,3})?", fullmatch=True)
UNITS = [
    "",
    "oz",
    "g",
    "kg",
    "OZ",
    "mL",
    "fl oz",
    "US fl  oz",
    "%",
    "volume",
    "Vol",
    "minutes",
    "h",
    "days",
    "weeks",
]
UNITS += ["pieces", "g/mL", "G/ml"]
TEXTS = st.one_of(
    st.tuples(NUMBERS, st.sampled_from(["", " ", "  "]), st.sampled_from(UNITS)).map("".join),
    st.tuples(NUMBERS, st.sampled_from([":", " : "]), NUMBERS).map("".join),
    st.tuples(st.integers(0, 70), st.sampled_from(["-", " - ", "–"]), st.integers(0, 70)).map(
        lambda ends: f"{ends[0]}{ends[1]}{ends[2]}"
    ),
    st.dates(datetime.date(1999, 1, 1), datetime.date(2100, 1, 1)).map(str),
)


@pytest.mark.more
@settings(max_examples=400 if os.environ.get("BOWLBOOK_LONG") else 40)
@given(TEXTS)
def test_what_is_read_fits(text: str) -> None:
    """Nothing that the grammar reads is underlined, in quotes or without."""
    for name, note in FIELDS.items():
        try:
            note.read(text)
        except Refusal:
            continue
        validator = Draft202012Validator(note.json_schema())
        assert validator.is_valid(text), (name, text)
        plain = read(text)
        assert isinstance(plain, dict) or validator.is_valid(plain), (name, plain)


def test_the_right_blend_fits_and_wrong_ones_do_not(book: SmallBook) -> None:
    """Each has one mistake, and the check refuses each too."""
    validator = Draft202012Validator(schema_of("blend", known_ids(read_folder(book.root))))
    assert validator.is_valid(read(WRONG["right"])) and len(WRONG["wrong"]) == 26
    passed = []
    for each in WRONG["wrong"]:
        assert each["put"] in WRONG["right"]
        text = WRONG["right"].replace(each["put"], each["by"], 1)
        (book.root / "blends/soft-clay.yml").write_text(text, encoding="utf-8")
        errors = [
            found
            for found in judge(book.root, datetime.date(2026, 11, 25)).findings
            if found.severity == "error"
        ]
        if validator.is_valid(read(text)) or not errors:
            passed.append(each["what"])
    assert passed == []


@pytest.mark.parametrize("sizes", ["{}", "{oz: []}"])
def test_a_blend_without_sizes_is_refused(book: SmallBook, sizes: str) -> None:
    text = WRONG["right"].replace("{oz: [0.5, 1, 2]}", sizes)
    (book.root / "blends/soft-clay.yml").write_text(text, encoding="utf-8")
    found = judge(book.root, datetime.date(2026, 11, 25)).findings
    assert [each.message for each in found if each.severity == "error"] == ["No size stands here."]
