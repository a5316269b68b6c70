"""JSON Schema of the entries, so that an editor completes and explains fields while they are written.

Made from the declarations that `bowlbook.entries.reader` uses, so that the two cannot drift apart.
"""

from collections.abc import Mapping, Sequence
from dataclasses import MISSING
from types import NoneType
from typing import Any, get_args, get_origin

from bowlbook.entries.entry import Reads, Ref, authored, is_part, notes_in, parts_in, yaml_key
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of
from bowlbook.entries.words import Words

Schema = dict[str, Any]
KnownIds = Mapping[tuple[str, str], Sequence[str]]
"""The ids of a book by kind of entry and, of products, by kind of product (else an empty text)."""

KIND = {"description": "lightener, developer, toner, additive or supply."}


def schema_of(kind: str, ids: KnownIds | None = None) -> Schema:
    """The JSON Schema (draft 2020-12) of a kind of entry, every field with its description.

    A product's is selected by its ``kind``, so that a mistake is said of that kind alone. ``ids``: those that
    a field may name; without them any id will do.
    """
    classes = classes_of(kind)
    schemas = [_of_class(cls, ids or {}) for cls in classes]
    kinds = [cls.__name__.lower() for cls in classes]
    found = _by_kind(kinds, schemas) if len(kinds) > 1 else schemas[0]
    parts = {each.__name__: _of_class(each, ids or {}) for cls in classes for each in _parts_of(cls)}
    if parts:
        found["$defs"] = dict(sorted(parts.items()))
    found["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    found["title"] = f"Bowlbook {kind}"
    return found


def schemas(ids: KnownIds | None = None) -> dict[str, Schema]:
    """The schema of every kind, by kind."""
    return {kind: schema_of(kind, ids) for kind in ENTRY_CLASSES}


def sides_of(schema: Schema) -> list[Schema]:
    """The object schemas of a kind of entry: one, or one for each kind of product."""
    return [each["then"] for each in schema["allOf"]] if "allOf" in schema else [schema]


def _by_kind(kinds: list[str], schemas: list[Schema]) -> Schema:
    """The schema that applies is chosen by ``kind`` first; without one, nothing else is looked at."""
    sides = []
    for kind, schema in zip(kinds, schemas, strict=True):
        schema["properties"]["kind"] = {"const": kind, **KIND}
        has_kind = {"properties": {"kind": {"const": kind}}, "required": ["kind"]}
        sides.append({"if": has_kind, "then": schema})
    return {
        "type": "object",
        "properties": {"kind": {"enum": kinds, **KIND}},
        "required": ["kind"],
        "allOf": sides,
    }


def _of_class(cls: Any, ids: KnownIds) -> Schema:
    """The object schema of an entry or a part: its own keys and no others."""
    fields = authored(cls)
    required = [yaml_key(spec.name) for spec in fields if spec.default is MISSING]
    return {
        "type": "object",
        "title": cls.__name__,
        "description": (cls.__doc__ or "").strip(),
        "properties": {
            yaml_key(spec.name): {**_of_type(spec.type, ids), "description": spec.metadata["description"]}
            for spec in fields
        },
        **({"required": required} if required else {}),
        "additionalProperties": False,
    }


def _of_type(hint: Any, ids: KnownIds) -> Schema:
    """The schema of a field's type. Raises TypeError for a type that no field has had so far."""
    for ref in notes_in(hint, Ref):
        if known := _known(ref, ids):
            return {"enum": known}
    for reads in notes_in(hint, Reads):
        return reads.json_schema()
    for words in notes_in(hint, Words):
        return words.json_schema()
    if is_part(hint):
        return {"$ref": f"#/$defs/{hint.__name__}"}
    inner = get_args(hint)
    if get_origin(hint) is tuple and inner[1:] == (...,):
        return {"type": "array", "items": _of_type(inner[0], ids)}
    if len(inner) == 2 and inner[1] is NoneType:
        return _of_type(inner[0], ids)  # a key with no value is an error, so that null is no value either
    raise TypeError(f"no JSON Schema for {hint}")


def _known(ref: Ref, ids: KnownIds) -> list[str]:
    """The ids that a field may name."""
    return sorted(
        each
        for (kind, of_product), known in ids.items()
        for each in known
        if kind == ref.to and (not ref.kinds or of_product in ref.kinds)
    )


def _parts_of(cls: Any) -> list[Any]:
    """Every part in a class, at any depth, each once."""
    found: dict[Any, None] = {}
    for spec in authored(cls):
        for inner in parts_in(spec.type):
            found |= dict.fromkeys([inner, *_parts_of(inner)])
    return list(found)
