"""What our reader makes of a mapping is what pydantic makes of it: the same entry, or the same mistakes.

Source: pydantic's own adapter of the same classes (its dataclass, tuple and validator schemas).
"""

import copy
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from generator.book.folder import FOLDERS
from generator.entries.entry import part, parts_in, said
from generator.entries.product import PRODUCT_KINDS
from generator.entries.reader import Wrong, reader_of
from generator.entries.validate import ENTRY_CLASSES, classes_of, private_keys
from generator.reading.document import read_source
from generator.reading.refusal import Refusal

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
SAID = {
    "missing": "missing",
    "unexpected_keyword_argument": "unknown",
    "too_short": "too short",
    "too_long": "too long",
    "tuple_type": "a list",
    "dataclass_type": "keys and values",
}


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


def ours(cls: Any, data: Any) -> object:
    try:
        return reader_of(cls)(data)
    except Wrong as wrong:
        return [
            (way, _refused(given)) if what == "refusal" else (way, wanted or what)
            for way, what, given, wanted in wrong.mistakes
        ]


def theirs(cls: Any, data: Any) -> object:
    try:
        return _adapter(cls).validate_python(data)
    except ValidationError as error:
        return [
            (
                each["loc"],
                _refused(each["ctx"]["error"]) if each["type"] == "value_error" else SAID[each["type"]],
            )
            for each in error.errors()
        ]


ADAPTERS: dict[Any, Any] = {}


def _adapter(cls: Any) -> Any:
    if cls not in ADAPTERS:
        ADAPTERS[cls] = TypeAdapter(cls)
    return ADAPTERS[cls]


def _refused(refusal: Refusal) -> tuple[object, ...]:
    return refusal.code, refusal.message, refusal.mend, refusal.way


def test_the_demo_book_is_read_the_same(mappings: list[tuple[Any, dict[str, Any]]]) -> None:
    assert {cls for cls, _ in mappings} == set(CLASSES)
    for cls, data in mappings:
        entry: Any = reader_of(cls)(data)
        assert type(entry) is cls
        reference = theirs(cls, data)
        for name in cls.field_names:
            assert getattr(entry, name) == getattr(reference, name), (cls, name)


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


@pytest.mark.parametrize("seed", range(4))
def test_any_mapping_is_read_the_same_or_has_the_same_mistakes(
    mappings: list[tuple[Any, dict[str, Any]]], seed: int
) -> None:
    draw = random.Random(seed)
    others = [value for _, data in mappings for holder in holders(data) for value in _in(holder)]
    heard = set()
    for _ in range(1500):
        cls, data = draw.choice(mappings)
        data = copy.deepcopy(data)
        for _ in range(draw.randint(1, 3)):
            spoil(draw, data, others)
        found, expected = ours(cls, data), theirs(cls, data)
        if isinstance(found, list):
            assert found == expected, data
            heard |= {what if isinstance(what, str) else "refusal" for _, what in found}
        else:
            assert {name: getattr(found, name) for name in cls.field_names} == {
                name: getattr(expected, name) for name in cls.field_names
            }
            heard.add("fine")
    assert heard >= {*SAID.values(), "refusal", "fine"} - {"too long"}


def _in(holder: Any) -> list[Any]:
    return list(holder.values()) if isinstance(holder, dict) else holder


@pytest.mark.parametrize("good", [0, 1, 23, 24, 25, 30])
@pytest.mark.parametrize("bad", [0, 1, 26])
def test_a_list_of_words_is_too_short_or_too_long_by_its_good_ones(
    mappings: list[tuple[Any, dict[str, Any]]], good: int, bad: int
) -> None:
    cls, data = next((cls, data) for cls, data in mappings if "suits" in data)
    for words in (["fine"] * good + ["x"] * bad, ["x"] * bad + ["fine"] * good):
        spoilt = {**data, "suits": {"texture": words}}
        found, expected = ours(cls, spoilt), theirs(cls, spoilt)
        assert (found == expected) if isinstance(found, list) else found.suits == expected.suits  # type: ignore[attr-defined]


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
    @part
    class Odd:
        number: complex = said("A number.")

    with pytest.raises(TypeError, match="nothing reads"):
        reader_of(Odd)
