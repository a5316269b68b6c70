"""A file's mapping to a typed entry; `bowlbook.entries.mistake` says what is wrong with it."""

from collections.abc import Iterator
from functools import cache
from typing import Any, cast

from bowlbook.entries.blend import Blend
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.entry import Entry, Part, authored, parts_in, yaml_key
from bowlbook.entries.gap import GAP
from bowlbook.entries.house import House
from bowlbook.entries.mistake import (
    cut_by_comma,
    empty_finding,
    keys_at,
    mistake_finding,
    part_at,
    product_kind_finding,
)
from bowlbook.entries.partial import Unread, near_misses, read_partly
from bowlbook.entries.product import PRODUCT_KINDS, Product
from bowlbook.entries.reader import Mistake, Wrong, reader_of
from bowlbook.entries.situation import Situation
from bowlbook.entries.technique import Technique
from bowlbook.entries.trouble import Trouble
from bowlbook.reading.finding import Finding
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Loc, Source, value_at

ENTRY_CLASSES: dict[str, type[Entry]] = {
    "house": House,
    "product": Product,
    "blend": Blend,
    "technique": Technique,
    "situation": Situation,
    "class": ClassNotes,
    "trouble": Trouble,
}
"""The class of each kind of entry; a product's own class comes from `PRODUCT_KINDS`."""


def classes_of(kind: str) -> tuple[type[Entry], ...]:
    """Every class that an entry of this kind can have."""
    return tuple(PRODUCT_KINDS.values()) if kind == "product" else (ENTRY_CLASSES[kind],)


@cache
def private_keys() -> frozenset[str]:
    """Every YAML key that some entry declares private: no finding quotes their values."""
    return _keys_of_all(private=True)


@cache
def known_keys() -> frozenset[str]:
    """Every YAML key that some entry may have, at any depth."""
    return _keys_of_all(private=False)


def _keys_of_all(*, private: bool) -> frozenset[str]:
    classes = [cast(Any, cls) for kind in ENTRY_CLASSES for cls in classes_of(kind)]
    return frozenset().union(*(_keys_in(cls, private=private) for cls in classes))


@cache
def _keys_in(cls: type[Part], *, private: bool) -> frozenset[str]:
    """The keys of a class and of the parts in it; ``private``: of the private ones alone."""
    found: set[str] = set()
    for spec in authored(cls):
        if not (private and spec.metadata.get("public", False)):
            found.add(yaml_key(spec.name))
        for inner in parts_in(spec.type):
            found |= _keys_in(cast(Any, inner), private=private)
    return frozenset(found)


def walk_fields(cls: type[Part], at: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every authored field of a class and of the parts in it, with its way of keys."""
    for spec in authored(cls):
        way = (*at, yaml_key(spec.name))
        yield way, spec
        for inner in parts_in(spec.type):
            yield from walk_fields(inner, way)


def validate(kind: str, entry_id: str, source: Source) -> tuple[Entry | None, list[Finding]]:
    """Read a source's mapping as an entry of ``kind``. Every mistake in it is found in one go.

    An entry with a mistake, of which reading may have found one already, is a partial one: see `is_partial`.
    None only where there is no mapping.
    """
    data = source.data
    if data is None:
        return None, []
    cls = ENTRY_CLASSES[kind]
    if kind == "product":
        word = data.get("kind")
        cls = PRODUCT_KINDS.get(word, Product) if isinstance(word, str) else Product
    findings: list[Finding] = []
    try:
        entry: Entry = reader_of(cast(Any, cls))(data)
    except Wrong:
        entry, findings = _partial(cls, entry_id, source)
    else:
        source.unknown = frozenset()
        entry.placed(entry_id, source)
        if source.faulty:
            entry = read_partly(cls, entry_id, source)
        if cls is Product:
            findings.append(product_kind_finding(source, data))
    source.known = None  # from here on ``unknown`` says it
    return entry, findings


def _partial(cls: type[Entry], entry_id: str, source: Source) -> tuple[Entry, list[Finding]]:
    """What can be read of a mapping with mistakes in it, and one finding for each mistake."""
    data: dict[str, Any] = source.data or {}
    kept, empty = _without_empty(data, ())
    mistakes: list[Mistake] = []
    try:
        reader_of(cast(Any, cls))(kept)
    except Wrong as wrong:
        mistakes = _each_once(cls, kept, wrong.mistakes)
    if cls is Product:
        mistakes = [each for each in mistakes if each.way != ("kind",) and not _is_of_some_product(each)]
    source.unknown = frozenset(each.way for each in mistakes if each.what == "unknown")
    source.misshapen = frozenset(each.way for each in mistakes if _hides_private(cls, each))
    cut = {loc: cut_by_comma(data, loc) for loc in empty}
    silent = {*empty, *source.faulty, *(before for before, _ in cut.values() if before is not None)}
    findings = [empty_finding(source, loc, cut[loc]) for loc in empty if loc not in source.faulty]
    said = [each for each in mistakes if each.what == "unknown" or each.way not in silent]
    findings += [mistake_finding(source, cls, each) for each in said]
    if cls is Product:
        findings.append(product_kind_finding(source, data))
    entry = read_partly(cls, entry_id, source, silent)
    refusal = _refused_together(entry) if not any(each.way == () for each in mistakes) else None
    if refusal is not None:
        findings.append(mistake_finding(source, cls, Mistake((), "refusal", refusal)))
    return entry, findings


def _each_once(cls: type[Entry], data: dict[str, Any], mistakes: list[Mistake]) -> list[Mistake]:
    """The mistakes without those that follow from others.

    A list is not too short because of the words in it that are wrong, and a key that is misspelt is not
    missing as well.
    """
    misspelt: set[Loc] = set()
    for way in {each.way[:-1] for each in mistakes if each.what == "unknown"}:
        near = near_misses(part_at(cls, way), value_at(data, way))
        misspelt |= {(*way, name) for name in near.values()}
    wrong_in = {each.way[:-1] for each in mistakes}
    return [
        each
        for each in mistakes
        if not (each.what == "too short" and each.way in wrong_in)
        and not (each.what == "missing" and each.way in misspelt)
    ]


def _hides_private(cls: type[Entry], mistake: Mistake) -> bool:
    """Whether a value that is no keys and values stands where private keys belong."""
    part = part_at(cls, mistake.way) if mistake.way else None
    wrong = mistake.what == "shape" and mistake.given != GAP
    return wrong and part is not None and bool(_keys_in(cast(Any, part), private=True))


def _is_of_some_product(mistake: Mistake) -> bool:
    """Whether a key that is unknown to all products is known to those of one kind."""
    return mistake.what == "unknown" and any(
        mistake.way[-1] in keys_at(cls, mistake.way[:-1]) for cls in PRODUCT_KINDS.values()
    )


def _refused_together(entry: Any) -> Refusal | None:
    """Why the values of an entry do not go together, as far as they could be read."""
    try:
        entry.__post_init__()
    except Unread:
        return None
    except Refusal as refusal:
        return refusal
    return None


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
