"""``bowlbook schema``: JSON Schema that editors can use, complete, explained, and true to the reader."""

import datetime
import json
import re
from dataclasses import MISSING, fields
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from bowlbook.commands.new import PRODUCTS
from bowlbook.entries.entry import authored, parts_in, yaml_key
from bowlbook.entries.schema import sides_of
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of, walk_fields
from checks.small_book import SmallBook
from commands.filled import begin_every_kind
from commands.run import run

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def schemas_for(root: Path) -> Any:
    result = run("schema", "--json", recipes=root)
    assert result.exit_code == 0
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def schemas(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """Those of the small book, with its ids."""
    return schemas_for(SmallBook(tmp_path_factory.mktemp("schemas") / "recipes").root)


def test_it_writes_one_file_for_each_kind_next_to_the_recipes(book: SmallBook, schemas: Any) -> None:
    before = sorted(book.root.rglob("*"))
    result = run("schema", recipes=book.root)
    assert result.exit_code == 0
    folder = book.root.parent / ".bowlbook" / "schema"
    written = {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in folder.glob("*.json")}
    assert written == schemas
    assert set(written) == set(ENTRY_CLASSES)
    assert sorted(book.root.rglob("*")) == before
    assert run("schema", recipes=book.root).exit_code == 0  # and again


def test_a_new_entry_fits_the_schema_that_its_first_line_names(tmp_path: Path) -> None:
    root = tmp_path / "recipes"
    paths = begin_every_kind(root)
    run("schema", recipes=root)
    for path in paths:
        found = re.match(r"# yaml-language-server: \$schema=(\S+)\n", path.read_text(encoding="utf-8"))
        assert found is not None
        target = (path.parent / found[1]).resolve()
        assert target.stem == kind_of(path)
        assert faults(read(path), json.loads(target.read_text(encoding="utf-8"))) == [], path


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


def faults(value: Any, schema: Any) -> list[str]:
    """What a value has against a schema, each with the way to it."""
    return [f"{each.json_path}: {each.message}" for each in Draft202012Validator(schema).iter_errors(value)]


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


def test_a_clean_book_fits_its_schema(book: SmallBook, schemas: Any) -> None:
    for name in book.texts:
        schema = schemas[kind_of(book.root / name)]
        assert faults(read(book.root / name), schema) == [], name


@pytest.mark.parametrize(
    ("name", "old", "new", "says"),
    [
        ("blends/soft-clay.yml", "lighteners:", "lightener:", "$: Additional properties"),
        ("blends/soft-clay.yml", "[fine, medium]", "[fine, mediun]", "$.suits.texture"),
        ("blends/soft-clay.yml", "product: clay", "product: Clay", "$.lighteners[0].product"),
        ("techniques/painting.yml", "zones: [2, 3]", "zones: [2, 4]", "$.bowls[0].zones"),
        ("classes/first-painting.yml", "duration: 3 hours\n", "", "'duration' is a required property"),
        ("house.yml", "currency: CAD", "currency: dollars", "$.currency"),
        ("products/clay.yml", "kind: lightener", "kind: lightner", "'lightner' is not one of"),
        ("products/foil.yml", "size: 12", "lifts: 12", "'lifts' was unexpected"),
    ],
)
def test_what_the_check_refuses_the_editor_underlines(
    book: SmallBook, schemas: Any, name: str, old: str, new: str, says: str
) -> None:
    book.edit(name, old, new)
    found = faults(read(book.root / name), schemas[kind_of(book.root / name)])
    assert len(found) <= 2 and any(says in fault for fault in found), found
    assert run("check", recipes=book.root).exit_code == 1


def test_every_kind_of_product_is_one_side(schemas: Any) -> None:
    sides = sides_of(schemas["product"])
    assert [side["properties"]["kind"]["const"] for side in sides] == list(PRODUCTS)


def test_where_nothing_can_be_written(tmp_path: Path) -> None:
    (tmp_path / ".bowlbook").write_text("a file", encoding="utf-8")
    result = run("schema", recipes=tmp_path / "recipes")
    assert result.exit_code == 2
    assert "The schemas cannot be written to" in result.stderr


@pytest.mark.long
def test_the_demo_book_fits_its_schemas(recipes: Path) -> None:
    found = schemas_for(recipes)
    for schema in found.values():
        Draft202012Validator.check_schema(schema)
    for path in recipes.rglob("*.yml"):
        assert faults(read(path), found[kind_of(path)]) == [], path


def test_a_wrong_key_in_a_developer_is_said_of_developers_alone(book: SmallBook, schemas: Any) -> None:
    book.add("products/developer-20.yml", "strenght: gentle\n")
    (fault,) = faults(read(book.root / "products/developer-20.yml"), schemas["product"])
    assert "'strenght' was unexpected" in fault and "lightener" not in fault


def test_ids_are_those_of_the_book_that_fit(book: SmallBook, schemas: Any) -> None:
    parts = schemas["blend"]["$defs"]
    assert parts["LightenerPart"]["properties"]["product"]["enum"] == ["clay", "powder"]
    assert parts["DeveloperChoice"]["properties"]["product"]["enum"] == ["developer-20"]
    assert "enum" not in parts["TonerPart"]["properties"]["product"]  # the book has no toner yet
    assert "enum" not in schemas["blend"]["properties"]["formerly"]["items"]


def with_first_line(book: SmallBook) -> Path:
    """Let the house's file name its schema; returns where the schemas go."""
    file = book.root / "house.yml"
    line = "# yaml-language-server: $schema=../.bowlbook/schema/house.json\n"
    file.write_text(line + file.read_text(encoding="utf-8"), encoding="utf-8")
    return book.root.parent / ".bowlbook" / "schema"


def test_check_writes_them_for_a_clone_and_keeps_them_up_to_date(book: SmallBook) -> None:
    assert run("check", recipes=book.root).exit_code == 0
    assert not (book.root.parent / ".bowlbook").exists()  # no file asks for them
    folder = with_first_line(book)
    run("check", recipes=book.root)
    assert {path.stem for path in folder.glob("*.json")} == set(ENTRY_CLASSES)
    before = {path: path.stat().st_mtime_ns for path in folder.iterdir()}
    run("check", recipes=book.root)
    assert {path: path.stat().st_mtime_ns for path in folder.iterdir()} == before
    book.write("products/oil.yml", (book.root / "products/clay.yml").read_text(encoding="utf-8"))
    run("check", recipes=book.root)
    blend = json.loads((folder / "blend.json").read_text(encoding="utf-8"))
    assert "oil" in blend["$defs"]["LightenerPart"]["properties"]["product"]["enum"]


def test_check_says_nothing_where_they_cannot_be_written(book: SmallBook) -> None:
    with_first_line(book)
    (book.root.parent / ".bowlbook").write_text("a file", encoding="utf-8")
    assert run("check", recipes=book.root).exit_code == 0
