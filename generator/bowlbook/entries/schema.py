"""JSON Schema of the entries, so that an editor completes and explains fields while they are written.

Made from the declarations that `bowlbook.entries.reader` uses, so that the two cannot drift apart.
"""

from dataclasses import MISSING
from types import NoneType
from typing import Annotated, Any, get_args, get_origin

from bowlbook.entries.entry import Reads, authored, is_part, parts_in, yaml_key
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of
from bowlbook.entries.words import Words

Schema = dict[str, Any]


def schema_of(kind: str) -> Schema:
    """The JSON Schema (draft 2020-12) of a kind of entry, every field with its description.

    A product's schema is one of five, selected by ``kind``.
    """
    classes = classes_of(kind)
    schemas = [_of_class(cls) for cls in classes]
    if len(schemas) == 1:
        found = schemas[0]
    else:
        for cls, schema in zip(classes, schemas, strict=True):
            schema["properties"]["kind"] = {
                "const": cls.__name__.lower(),
                "description": "lightener, developer, toner, additive or supply.",
            }
        found = {"oneOf": schemas}
    parts = {each.__name__: _of_class(each) for cls in classes for each in _parts_of(cls)}
    if parts:
        found["$defs"] = dict(sorted(parts.items()))
    found["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    found["title"] = f"Bowlbook {kind}"
    return found


def schemas() -> dict[str, Schema]:
    """The schema of every kind, by kind."""
    return {kind: schema_of(kind) for kind in ENTRY_CLASSES}


def _of_class(cls: Any) -> Schema:
    """The object schema of an entry or a part: its own keys and no others."""
    fields = authored(cls)
    required = [yaml_key(spec.name) for spec in fields if spec.default is MISSING]
    return {
        "type": "object",
        "title": cls.__name__,
        "description": (cls.__doc__ or "").strip(),
        "properties": {
            yaml_key(spec.name): {**_of_type(spec.type), "description": spec.metadata["description"]}
            for spec in fields
        },
        **({"required": required} if required else {}),
        "additionalProperties": False,
    }


def _of_type(hint: Any) -> Schema:
    """The schema of a field's type. Raises TypeError for a type that no field has had so far."""
    if get_origin(hint) is Annotated:
        for note in hint.__metadata__:
            if isinstance(note, Reads | Words):
                return note.json_schema()
    if is_part(hint):
        return {"$ref": f"#/$defs/{hint.__name__}"}
    inner = get_args(hint)
    if get_origin(hint) is tuple and inner[1:] == (...,):
        return {"type": "array", "items": _of_type(inner[0])}
    if len(inner) == 2 and inner[1] is NoneType:
        return _of_type(inner[0])  # a key with no value is an error, so that null is no value either
    raise TypeError(f"no JSON Schema for {hint}")


def _parts_of(cls: Any) -> list[Any]:
    """Every part in a class, at any depth, each once."""
    found: dict[Any, None] = {}
    for spec in authored(cls):
        for inner in parts_in(spec.type):
            found |= dict.fromkeys([inner, *_parts_of(inner)])
    return list(found)
