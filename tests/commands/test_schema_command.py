"""``bowlbook schema``: JSON Schema that editors can use, complete, explained, and true to the reader."""

import datetime
import json
import re
from dataclasses import MISSING, fields
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from bowlbook.commands.new import PRODUCTS, START_KINDS
from bowlbook.entries.entry import authored, parts_in, yaml_key
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of, walk_fields
from checks.small_book import SmallBook
from commands.filled import filled_in
from commands.run import run

DRAFT = "https://json-schema.org/draft/2020-12/schema"


@pytest.fixture(scope="module")
def schemas() -> Any:
    result = run("schema", "--json")
    assert result.exit_code == 0
    return json.loads(result.stdout)


def test_it_writes_one_file_for_each_kind_next_to_the_recipes(book: SmallBook, schemas: Any) -> None:
    before = sorted(book.root.rglob("*"))
    result = run("schema", recipes=book.root)
    assert result.exit_code == 0
    folder = book.root.parent / ".bowlbook" / "schema"
    written = {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in folder.iterdir()}
    assert written == schemas
    assert set(written) == set(ENTRY_CLASSES)
    assert sorted(book.root.rglob("*")) == before
    assert run("schema", recipes=book.root).exit_code == 0  # and again


def test_the_first_line_of_a_new_entry_finds_its_schema(tmp_path: Path) -> None:
    root = tmp_path / "recipes"
    for kind in START_KINDS:
        assert run("new", kind, f"My {kind}", *filled_in(kind), recipes=root).exit_code == 0
    run("schema", recipes=root)
    for path in root.rglob("*.yml"):
        found = re.match(r"# yaml-language-server: \$schema=(\S+)\n", path.read_text(encoding="utf-8"))
        assert found is not None
        target = (path.parent / found[1]).resolve()
        assert target.is_file()
        kind = {"house.yml": "house"}.get(path.name, path.parent.name.rstrip("s"))
        assert target.stem == {"classe": "class"}.get(kind, kind)


def sides_of(schema: Any) -> list[Any]:
    """The schema of a kind, one for each class that it can have."""
    return schema.get("oneOf", [schema])


def followed(schema: Any, root: Any) -> list[Any]:
    """The object schemas that a property leads to, through lists, choices and references."""
    if "$ref" in schema:
        return followed(root["$defs"][schema["$ref"].removeprefix("#/$defs/")], root)
    found = [schema] if "properties" in schema else []
    for inner in [schema.get("items"), *schema.get("anyOf", ())]:
        if inner:
            found += followed(inner, root)
    return found


@pytest.mark.parametrize("kind", list(ENTRY_CLASSES))
def test_every_field_is_in_it_with_its_sentence(schemas: Any, kind: str) -> None:
    root = schemas[kind]
    assert root["$schema"] == DRAFT
    seen = 0
    for cls, side in zip(classes_of(kind), sides_of(root), strict=True):
        for way, spec in walk_fields(cls):
            at = side
            for step in way[:-1]:
                (at,) = followed(at["properties"][step], root)
            assert at["properties"][way[-1]]["description"] == spec.metadata["description"] != "", way
            assert at["additionalProperties"] is False, way
            seen += 1
        assert set(side["properties"]) == {yaml_key(spec.name) for spec in authored(cls)}
        needed = {yaml_key(spec.name) for spec in authored(cls) if not has_default(spec)}
        assert set(side.get("required", ())) == needed
    assert seen > 15


def has_default(spec: Any) -> bool:
    return spec.default is not MISSING or spec.default_factory is not MISSING


def test_no_field_stays_out_of_the_walk() -> None:
    """`walk_fields`, by which the test above goes, sees every part that a class's types hold."""
    for kind in ENTRY_CLASSES:
        for cls in classes_of(kind):
            named = {way[0] for way, _ in walk_fields(cls)}
            assert named == {yaml_key(spec.name) for spec in fields(cls) if spec.init}
            assert parts_in(cls) == [cls]


TYPES = {"string": str, "number": (int, float), "object": dict, "array": list, "null": type(None)}


def faults(value: Any, schema: Any, root: Any, at: str = "") -> list[str]:
    """What a value has against a schema: the keywords that the schemas use, and no others pass unseen."""
    found: list[str] = []
    for word, said in schema.items():
        match word:
            case "$ref":
                found += faults(value, root["$defs"][said.removeprefix("#/$defs/")], root, at)
            case "anyOf":
                if all(faults(value, each, root, at) for each in said):
                    found.append(f"{at}: fits nothing of anyOf")
            case "oneOf":
                fits = [not faults(value, each, root, at) for each in said]
                if sum(fits) != 1:
                    found.append(f"{at}: fits {sum(fits)} of oneOf")
            case "type":
                names = said if isinstance(said, list) else [said]
                if not any(isinstance(value, TYPES[name]) for name in names):
                    found.append(f"{at}: {value!r} is not {said}")
            case "enum":
                found += [] if value in said else [f"{at}: {value!r} is none of {said}"]
            case "const":
                found += [] if value == said else [f"{at}: {value!r} is not {said!r}"]
            case "pattern":
                if isinstance(value, str) and not re.search(said, value):
                    found.append(f"{at}: {value!r} is not like {said}")
            case "maxLength":
                found += [f"{at}: too long"] if isinstance(value, str) and len(value) > said else []
            case "minItems":
                found += [f"{at}: too short"] if isinstance(value, list) and len(value) < said else []
            case "items":
                if isinstance(value, list):
                    for index, each in enumerate(value):
                        found += faults(each, said, root, f"{at}[{index}]")
            case "required":
                if isinstance(value, dict):
                    found += [f"{at}.{key}: missing" for key in said if key not in value]
            case "properties":
                if isinstance(value, dict):
                    for key in set(said) & set(value):
                        found += faults(value[key], said[key], root, f"{at}.{key}")
            case "additionalProperties":
                assert said is False
                if isinstance(value, dict):
                    more = sorted(set(value) - set(schema.get("properties", ())))
                    found += [f"{at}.{key}: unknown" for key in more]
            case "$schema" | "$defs" | "title" | "description" | "examples" | "format" | "default":
                pass
            case _:
                raise AssertionError(f"the schema uses {word}, which this test does not know")
    return found


def read(path: Path) -> Any:
    """An entry as an editor's YAML 1.2 reader sees it; JSON Schema knows no dates."""

    def plain(value: Any) -> Any:
        if isinstance(value, dict):
            return {str(key): plain(inner) for key, inner in value.items()}
        if isinstance(value, list):
            return [plain(inner) for inner in value]
        return value.isoformat() if isinstance(value, datetime.date) else value

    return plain(YAML(typ="safe", pure=True).load(path.read_text(encoding="utf-8")))


def kind_of(path: Path) -> str:
    return "house" if path.name == "house.yml" else {"classes": "class"}.get(
        path.parent.name, path.parent.name.removesuffix("s")
    )  # fmt: skip


def test_new_entries_fit_their_schema(tmp_path: Path, schemas: Any) -> None:
    for kind in START_KINDS:
        assert run("new", kind, f"My {kind}", *filled_in(kind), recipes=tmp_path).exit_code == 0
    paths = sorted(tmp_path.rglob("*.yml"))
    assert len(paths) == len(START_KINDS)
    for path in paths:
        schema = schemas[kind_of(path)]
        assert faults(read(path), schema, schema) == [], path


def test_a_clean_book_fits_its_schema(book: SmallBook, schemas: Any) -> None:
    for name in book.texts:
        schema = schemas[kind_of(book.root / name)]
        assert faults(read(book.root / name), schema, schema) == [], name


@pytest.mark.parametrize(
    ("name", "old", "new", "says"),
    [
        ("blends/soft-clay.yml", "lighteners:", "lightener:", ".lightener: unknown"),
        ("blends/soft-clay.yml", "[fine, medium]", "[fine, mediun]", ".suits.texture"),
        ("blends/soft-clay.yml", "product: clay", "product: Clay", ".lighteners[0].product"),
        ("techniques/painting.yml", "zones: [2, 3]", "zones: [2, 4]", ".bowls[0].zones"),
        ("classes/first-painting.yml", "duration: 3 hours\n", "", ".duration: missing"),
        ("house.yml", "currency: CAD", "currency: dollars", ".currency"),
        ("products/clay.yml", "kind: lightener", "kind: lightner", "fits 0 of oneOf"),
        ("products/foil.yml", "size: 12", "lifts: 12", "fits 0 of oneOf"),
    ],
)
def test_what_the_check_refuses_the_editor_underlines(
    book: SmallBook, schemas: Any, name: str, old: str, new: str, says: str
) -> None:
    book.edit(name, old, new)
    schema = schemas[kind_of(book.root / name)]
    assert any(says in fault for fault in faults(read(book.root / name), schema, schema))
    assert run("check", recipes=book.root).exit_code == 1


def test_every_kind_of_product_is_one_side(schemas: Any) -> None:
    sides = sides_of(schemas["product"])
    assert [side["properties"]["kind"]["const"] for side in sides] == list(PRODUCTS)


def test_where_nothing_can_be_written(tmp_path: Path) -> None:
    (tmp_path / ".bowlbook").write_text("a file", encoding="utf-8")
    result = run("schema", recipes=tmp_path / "recipes")
    assert result.exit_code == 2
    assert "The schemas cannot be written to" in result.stderr
