"""A file's mapping to a typed entry, and what is wrong with it to findings."""

import re
from dataclasses import fields
from functools import cache
from typing import Any, cast

from generator.entries.blend import Blend
from generator.entries.class_notes import ClassNotes
from generator.entries.entry import Entry, parts_in, shape_refusal, yaml_key
from generator.entries.house import House
from generator.entries.product import KIND_WORDS, PRODUCT_KINDS, Product
from generator.entries.reader import Mistake, Wrong, reader_of
from generator.entries.situation import Situation
from generator.entries.technique import Technique
from generator.reading.finding import Finding
from generator.reading.nearest import did_you_mean
from generator.reading.source import Loc, Source

ENTRY_CLASSES: dict[str, type[Entry]] = {
    "house": House,
    "product": Product,
    "blend": Blend,
    "technique": Technique,
    "situation": Situation,
    "class": ClassNotes,
}
"""The class of each kind of entry; a product's own class comes from `PRODUCT_KINDS`."""


def classes_of(kind: str) -> tuple[type[Entry], ...]:
    """Every class that an entry of this kind can have."""
    return tuple(PRODUCT_KINDS.values()) if kind == "product" else (ENTRY_CLASSES[kind],)


@cache
def private_keys() -> frozenset[str]:
    """Every YAML key that some entry declares private: no finding quotes what stands behind it."""
    return frozenset().union(
        *(_private_in(cast(Any, cls)) for kind in ENTRY_CLASSES for cls in classes_of(kind))
    )


@cache
def _private_in(cls: Any) -> frozenset[str]:
    """The private keys of a class and of the parts in it."""
    found: set[str] = set()
    for spec in fields(cls):
        if spec.init:
            if not spec.metadata.get("public", False):
                found.add(yaml_key(spec.name))
            for inner in parts_in(spec.type):
                found |= _private_in(cast(Any, inner))
    return frozenset(found)


def walk_fields(cls: type[Any], at: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], Any]]:
    """Every authored field of a class and of the parts in it, with its way of keys."""
    found: list[tuple[tuple[str, ...], Any]] = []
    for spec in fields(cls):
        if not spec.init:
            continue
        way = (*at, yaml_key(spec.name))
        found.append((way, spec))
        for inner in parts_in(spec.type):
            found.extend(walk_fields(inner, way))
    return found


def validate(kind: str, entry_id: str, source: Source) -> tuple[Entry | None, list[Finding]]:
    """Read a source's mapping as an entry of ``kind``. Every mistake in it is found in one go."""
    data = source.data
    if data is None:
        return None, []
    cls = ENTRY_CLASSES[kind]
    if kind == "product":
        word = data.get("kind")
        known = PRODUCT_KINDS.get(word) if isinstance(word, str) else None
        if known is None:
            return None, [_product_kind(source, word, "kind" in data)]
        cls = known
    read = reader_of(cast(Any, cls))
    findings: list[Finding] = []
    try:
        entry: Entry = read(data)
    except Wrong:
        kept, empty = _without_empty(data, ())
        findings = [_empty(source, loc) for loc in empty]
        try:
            entry = read(kept)
        except Wrong as wrong:
            return None, findings + _findings(source, cls, wrong, frozenset(empty))
    entry.placed(entry_id, source)
    return (None if findings else entry), findings


def _empty(source: Source, loc: Loc) -> Finding:
    """Nothing behind a key; or the rest of a text that a comma inside { } cut off."""
    refusal = shape_refusal(None, "")
    if re.fullmatch("[a-z_]+", str(loc[-1])):
        return source.finding(loc, refusal.code, refusal.message, refusal.mend)
    return source.finding(
        loc,
        refusal.code,
        "A comma inside { } ended the text before this.",
        'Put the whole text in quotes: because: "Slow, and kind."',
        key=True,
    )


def _without_empty(value: Any, loc: Loc) -> tuple[Any, list[Loc]]:
    """The value without keys that nothing stands behind, and the ways of those keys."""
    if isinstance(value, dict):
        empty = [(*loc, key) for key, inner in value.items() if inner is None]
        kept = {}
        for key, inner in value.items():
            if inner is not None:
                kept[key], more = _without_empty(inner, (*loc, key))
                empty += more
        return kept, empty
    if isinstance(value, list):
        pairs = [_without_empty(inner, (*loc, index)) for index, inner in enumerate(value)]
        return [inner for inner, _ in pairs], [way for _, more in pairs for way in more]
    return value, []


def _product_kind(source: Source, word: Any, given: bool) -> Finding:
    mend = "Write kind: and one of " + ", ".join(KIND_WORDS) + "."
    if not given:
        return source.finding((), "missing-key", 'The key "kind" is missing.', mend)
    if not isinstance(word, str):
        refusal = shape_refusal(word, "one word")
        return source.finding(("kind",), refusal.code, refusal.message, mend)
    return source.finding(
        ("kind",),
        "unknown-word",
        f'"{word[:40]}" is not a kind of product.',
        did_you_mean(word, KIND_WORDS) or mend,
    )


def _findings(source: Source, cls: type[Entry], wrong: Wrong, empty: frozenset[Loc]) -> list[Finding]:
    """One finding for each mistake; none for a key that was found empty already."""
    return [_finding(source, cls, mistake) for mistake in wrong.mistakes if mistake.way not in empty]


def _finding(source: Source, cls: type[Entry], mistake: Mistake) -> Finding:
    loc, what, given, wanted = mistake
    if what == "refusal":
        message = given.message
        if source.is_private(loc) and '"' in message:
            message = "This value does not fit here."
        return source.finding((*loc, *given.way), given.code, message, given.mend)
    if what == "missing":
        name = loc[-1]
        mend = f"Add {name}: {_description(cls, loc)}"
        return source.finding(loc[:-1], "missing-key", f'The key "{name}" is missing here.', mend)
    if what == "unknown":
        name, known = str(loc[-1]), _known_keys(cls, loc[:-1])
        return source.finding(
            loc,
            "unknown-key",
            f'There is no key "{name[:40]}" here.',
            did_you_mean(name, known) or "Keys: " + ", ".join(known) + ".",
            key=True,
        )
    if what == "too short":
        return source.finding(
            loc, "empty-value", "This list is empty.", "Write what belongs in it, or delete the key."
        )
    if what == "too long":
        return source.finding(loc, "too-many-values", "This list is too long.", "Shorten it.")
    refusal = shape_refusal(given, wanted)
    return source.finding(loc, refusal.code, refusal.message, refusal.mend)


def _part_at(cls: type[Any], loc: Loc) -> type[Any] | None:
    """The class of the part that a way of keys leads to."""
    current: type[Any] | None = cls
    for step in loc:
        if isinstance(step, int) or current is None:
            continue
        types = {yaml_key(spec.name): spec.type for spec in fields(current) if spec.init}
        inner = parts_in(types.get(step))
        current = inner[0] if inner else None
    return current


def _known_keys(cls: type[Entry], loc: Loc) -> list[str]:
    found = _part_at(cls, loc)
    return [yaml_key(spec.name) for spec in fields(found) if spec.init] if found else []


def _description(cls: type[Entry], loc: Loc) -> str:
    found = _part_at(cls, loc[:-1])
    for spec in fields(found) if found else ():
        if yaml_key(spec.name) == loc[-1]:
            text = str(spec.metadata["description"])
            return text[0].lower() + text[1:] if text[1:2].islower() else text
    return ""
