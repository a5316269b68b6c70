"""JSON Schema of the entries, so that an editor completes and explains fields while they are written."""

from typing import Any

from pydantic import TypeAdapter

from generator.entries.entry import authored, parts_in, yaml_key
from generator.entries.validate import ENTRY_CLASSES, classes_of


def schema_of(kind: str) -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of a kind of entry, every field with its description.

    A product's schema is one of five, told apart by ``kind``.
    """
    classes = classes_of(kind)
    schemas = [_class_schema(cls) for cls in classes]
    if len(schemas) == 1:
        found = schemas[0]
    else:
        definitions: dict[str, Any] = {}
        for cls, schema in zip(classes, schemas, strict=True):
            schema["properties"]["kind"] = {
                "const": cls.__name__.lower(),
                "description": "lightener, developer, toner, additive or supply.",
            }
            definitions.update(schema.pop("$defs", {}))
        found = {"oneOf": schemas, "$defs": definitions}
    found["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    found["title"] = f"Bowlbook {kind}"
    return found


def schemas() -> dict[str, dict[str, Any]]:
    """The schema of every kind, by kind."""
    return {kind: schema_of(kind) for kind in ENTRY_CLASSES}


def _class_schema(cls: Any) -> dict[str, Any]:
    schema: dict[str, Any] = TypeAdapter(cls).json_schema(by_alias=True)
    definitions = schema.get("$defs", {})
    for part in {cls, *_parts(cls)}:
        target = schema if part is cls else definitions.get(part.__name__)
        if target is None:
            continue
        target["description"] = (part.__doc__ or "").strip()
        for spec in authored(part):
            described = target["properties"][yaml_key(spec.name)]
            described["description"] = spec.metadata["description"]
            described.pop("default", None)
            described.pop("title", None)
    return schema


def _parts(cls: Any) -> set[Any]:
    found: set[Any] = set()
    for spec in authored(cls):
        for inner in parts_in(spec.type):
            found |= {inner, *_parts(inner)}
    return found
