"""What the reader makes of a mapping: the entry, or every mistake in it.

Source: the library ``jsonschema`` (JSON Schema draft 2020-12) with the schemas of the same declarations finds
the same missing and unknown keys and the same values of a wrong shape.
"""

import copy
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from bowlbook.book.folder import FOLDERS
from bowlbook.entries.entry import Part, authored, parts_in, said, yaml_key
from bowlbook.entries.product import PRODUCT_KINDS
from bowlbook.entries.reader import Wrong, reader_of
from bowlbook.entries.schema import schema_of, sides_of
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of, private_keys
from bowlbook.reading.document import read_source
from seeds import seeds

CLASSES = [cls for kind in ENTRY_CLASSES for cls in classes_of(kind)]
WORDS = [str(number) for number in range(1, 11)]
ODD: list[Any] = [
    "",
    "x",
    "on-scalp",
    "1:2",
    "yes",
    "99",
    "é" * 500,
    [],
    ["x"],
    {},
    {"x": "1"},
    [None],
    [["x"]],
]
ODD += [["fine"] * 23, ["fine"] * 24, ["fine"] * 25, ["x"] * 30, ["fine", "x"] * 13, WORDS * 2, WORDS * 3]


@pytest.fixture(scope="module")
def mappings(recipes: Path) -> list[tuple[Any, dict[str, Any]]]:
    """The demo book's entries as they are written, each with its class."""
    found = []
    for path in sorted(recipes.rglob("*.yml")):
        data = read_source(path, path.name, private_keys())[0].data
        assert data is not None
        cls = ENTRY_CLASSES[FOLDERS.get(path.parent.name, "house")]
        found.append((PRODUCT_KINDS[data["kind"]] if "kind" in data else cls, data))
    return found


def mistakes_of(cls: Any, data: Any) -> list[tuple[tuple[Any, ...], str]]:
    """What the reader finds wrong: the way to it, and what it is. Empty where an entry could be made."""
    try:
        entry = reader_of(cls)(data)
    except Wrong as wrong:
        return [
            (each.way, f"{each.given.code}" if each.what == "refusal" else each.what)
            for each in wrong.mistakes
        ]
    assert type(entry) is cls
    return []


def faults_of_shape(mistakes: list[tuple[tuple[Any, ...], str]], data: Any) -> set[tuple[Any, ...]]:
    """Those of the reader's mistakes that a JSON Schema without patterns can find too."""
    found: set[tuple[Any, ...]] = set()
    for way, what in mistakes:
        if what in ("missing", "unknown"):
            found.add((*way, what))
        elif what in ("shape", "wrong-shape") or (what == "empty-value" and _at(data, way) is None):
            found.add((*way, "shape"))
    return found


def _at(value: Any, way: tuple[Any, ...]) -> Any:
    for step in way:
        value = value[step]
    return value


VALIDATORS: dict[Any, Any] = {}


def _validator(cls: Any) -> Any:
    if cls not in VALIDATORS:
        kind = next(kind for kind in ENTRY_CLASSES if cls in classes_of(kind))
        schema = schema_of(kind)
        side = sides_of(schema)[classes_of(kind).index(cls)]
        VALIDATORS[cls] = Draft202012Validator({**side, "$defs": schema["$defs"]})
    return VALIDATORS[cls]


def faults_by_schema(cls: Any, data: Any) -> set[tuple[Any, ...]]:
    """The same faults as `jsonschema` finds them."""
    found: set[tuple[Any, ...]] = set()
    waiting = list(_validator(cls).iter_errors(data))
    while waiting:
        error = waiting.pop()
        at, value = tuple(error.absolute_path), error.instance
        if error.validator == "required":
            found |= {(*at, key, "missing") for key in error.validator_value if key not in value}
        elif error.validator == "additionalProperties":
            found |= {(*at, key, "unknown") for key in value if key not in error.schema["properties"]}
        elif error.validator == "anyOf" and isinstance(value, list):
            waiting += [each for each in error.context if each.schema_path[0] == 1]
        elif error.validator == "type" or (
            error.validator in ("anyOf", "enum", "const") and not isinstance(value, str)
        ):
            found.add((*at, "shape"))
    return found


def test_the_demo_book_is_read_as_it_is_written(mappings: list[tuple[Any, dict[str, Any]]]) -> None:
    assert {cls for cls, _ in mappings} == set(CLASSES)
    for cls, data in mappings:
        entry: Any = reader_of(cls)(data)
        assert type(entry) is cls
        assert faults_by_schema(cls, data) == set()
        for spec in authored(cls):
            value = getattr(entry, spec.name)
            assert value == spec.default if yaml_key(spec.name) not in data else value is not None


def holders(value: Any) -> Iterator[Any]:
    """Every mapping and list in a value."""
    if isinstance(value, dict | list):
        yield value
        for inner in value.values() if isinstance(value, dict) else value:
            yield from holders(inner)


def spoil(draw: random.Random, data: dict[str, Any], others: list[Any]) -> None:
    """Take something out, put something odd in, or change something for what stands elsewhere."""
    holder = draw.choice(list(holders(data)))
    places = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
    value = copy.deepcopy(draw.choice(ODD) if draw.random() < 0.5 else draw.choice(others))
    what = draw.random()
    if what < 0.3 and places:
        del holder[draw.choice(places)]
    elif what < 0.8 and places:
        holder[draw.choice(places)] = value
    elif isinstance(holder, dict):
        holder[draw.choice(["nme", "parts", "because", "x"])] = value
    else:
        holder.insert(draw.randint(0, len(holder)), value)


@pytest.mark.parametrize("seed", seeds(4))
def test_any_mapping_has_the_faults_of_shape_that_its_schema_finds(
    mappings: list[tuple[Any, dict[str, Any]]], seed: int
) -> None:
    draw = random.Random(seed)
    others = [value for _, data in mappings for holder in holders(data) for value in _in(holder)]
    seen: set[str] = set()
    for _ in range(1500):
        cls, data = draw.choice(mappings)
        data = copy.deepcopy(data)
        for _ in range(draw.randint(1, 3)):
            spoil(draw, data, others)
        mistakes = mistakes_of(cls, data)
        whats = {what for _, what in mistakes} or {"fine"}
        if "too long" not in whats:  # such a list is not looked through
            assert faults_of_shape(mistakes, data) == faults_by_schema(cls, data), data
        seen |= whats
    assert seen >= {"missing", "unknown", "shape", "wrong-shape", "unknown-word", "too short", "fine"}


def _in(holder: Any) -> list[Any]:
    return list(holder.values()) if isinstance(holder, dict) else holder


@pytest.mark.parametrize("good", [0, 1, 23, 24, 25, 30])
@pytest.mark.parametrize("bad", [0, 1, 26])
def test_a_list_of_words_is_too_short_or_too_long_by_its_good_ones(
    mappings: list[tuple[Any, dict[str, Any]]], good: int, bad: int
) -> None:
    cls, data = next((cls, data) for cls, data in mappings if "suits" in data)
    way = ("suits", "texture")
    for words in (["fine"] * good + ["x"] * bad, ["x"] * bad + ["fine"] * good):
        refused = [((*way, at), "unknown-word") for at, word in enumerate(words) if word == "x"]
        expected = [(way, "too long")] if good > 24 else refused + ([] if good else [(way, "too short")])
        assert mistakes_of(cls, {**data, "suits": {"texture": words}}) == expected


def test_nothing_behind_a_key_is_for_whoever_looked_before(
    mappings: list[tuple[Any, dict[str, Any]]],
) -> None:
    """`validate` takes such keys out and tells each; the reader itself refuses them."""
    for cls, data in mappings:
        for key in data:
            with pytest.raises(Wrong):
                reader_of(cls)({**data, key: None})


def test_every_part_of_every_entry_can_be_read() -> None:
    seen: set[Any] = set()
    waiting: list[Any] = list(CLASSES)
    while waiting:
        cls = waiting.pop()
        if cls not in seen:
            seen.add(cls)
            reader_of(cls)
            waiting += [inner for spec in cls.__dataclass_fields__.values() for inner in parts_in(spec.type)]
    assert len(seen) > 30


def test_a_type_that_no_field_has_had_so_far_is_a_fault_of_the_program() -> None:
    class Odd(Part):
        number: complex = said("A number.")

    with pytest.raises(TypeError, match="nothing reads"):
        reader_of(Odd)
