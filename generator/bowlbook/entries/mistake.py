"""What is wrong with a mapping as findings: at its place, with what was expected and how to mend it."""

import re
from typing import Any

from bowlbook.entries.entry import Entry, authored, parts_in, shape_refusal, yaml_key
from bowlbook.entries.gap import GAP
from bowlbook.entries.product import PRODUCT_KINDS
from bowlbook.entries.reader import Mistake
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.source import Loc, Source, value_at


def cut_by_comma(data: dict[str, Any], loc: Loc) -> tuple[Loc | None, str]:
    """Of a key with nothing behind it: what a comma inside { } cut it off from, and both as written.

    None where the key looks like a key. ``{g: 0,1}`` is a key g with 0 and a key 1 with nothing.
    """
    if re.fullmatch("[a-z_]+", str(loc[-1])):
        return None, ""
    holder = value_at(data, loc[:-1])
    keys = list(holder)
    before = keys[keys.index(loc[-1]) - 1] if keys.index(loc[-1]) else None
    if before is None or not isinstance(holder[before], str):
        return None, ""
    return (*loc[:-1], before), f"{holder[before]},{loc[-1]}"


def empty_finding(source: Source, loc: Loc, cut: tuple[Loc | None, str]) -> Finding:
    """Nothing behind a key; or the rest of a text that a comma inside { } cut off."""
    refusal = shape_refusal(None, "")
    if re.fullmatch("[a-z_]+", str(loc[-1])):
        return source.finding(loc, refusal.code, refusal.message, refusal.mend)
    before, written = cut
    number = re.fullmatch(r"((?:[0-9.]+:)?[0-9]+),([0-9]+.*)", written)
    if before is None or number is None:
        message = "A comma inside { } ended the text before this."
        mend = 'Put the whole text in quotes: because: "Slow, and kind."'
        return source.finding(loc, refusal.code, message, mend, key=True)
    unquoted = "A comma inside { } ended the number before this.", "Write the number with a point."
    hidden = source.is_private(before) or source.is_unknown(before)
    message = "A comma ends the number here."
    mend = f"Write {number[1]}.{number[2]}, with a point."
    return source.finding(before, "bad-amount", message, mend, unquoted=unquoted if hidden else None)


def product_kind_finding(source: Source, data: dict[str, Any]) -> Finding:
    """The kind of a product is missing, or is none."""
    word = data.get("kind")
    mend = "Write kind: and one of " + ", ".join(PRODUCT_KINDS) + "."
    if "kind" not in data:
        return source.finding((), "missing-key", 'The key "kind" is missing.', mend)
    if not isinstance(word, str):
        refusal = shape_refusal(word, "one word")
        return source.finding(("kind",), refusal.code, refusal.message, mend)
    message = f'"{word[:40]}" is not a kind of product.'
    return source.finding(("kind",), "unknown-word", message, did_you_mean(word, PRODUCT_KINDS) or mend)


def mistake_finding(source: Source, cls: type[Entry], mistake: Mistake) -> Finding:
    """A mistake that the reader of ``cls`` has met, in words; no value of a private field is quoted."""
    loc, what, given, wanted = mistake
    if (what == "shape" and given == GAP) or (what == "refusal" and given.code == "not-filled-in"):
        named = tuple(step for step in loc if isinstance(step, str))
        mend = f"Write {named[-1]}: {description_of(cls, named)}"
        return source.finding(loc, "not-filled-in", f"Not filled in yet: {named[-1]}.", mend)
    if what == "refusal":
        unquoted = given.unquoted if source.is_private(loc) else None
        if unquoted is not None and '"' in unquoted[0]:
            unquoted = "This value does not fit here.", unquoted[1]
        return source.finding((*loc, *given.way), given.code, given.message, given.mend, unquoted=unquoted)
    if what == "missing":
        name = loc[-1]
        mend = f"Add {name}: {description_of(cls, loc)}"
        return source.finding(loc[:-1], "missing-key", f'The key "{name}" is missing here.', mend)
    if what == "unknown":
        name, known = str(loc[-1]), keys_at(cls, loc[:-1])
        message = f'There is no key "{name[:40]}" here.'
        mend = did_you_mean(name, known) or "Keys: " + ", ".join(known) + "."
        return source.finding(loc, "unknown-key", message, mend, key=True)
    if what == "too short":
        return source.finding(
            loc, "empty-value", "This list is empty.", "Write what belongs in it, or delete the key."
        )
    if what == "too long":
        return source.finding(loc, "too-many-values", "This list is too long.", "Shorten it.")
    refusal = shape_refusal(given, wanted)
    return source.finding(loc, refusal.code, refusal.message, refusal.mend)


def part_at(cls: type[Any], loc: Loc) -> type[Any] | None:
    """The class of the part that a way of keys leads to."""
    current: type[Any] | None = cls
    for step in loc:
        if isinstance(step, int) or current is None:
            continue
        types = {yaml_key(spec.name): spec.type for spec in authored(current)}
        inner = parts_in(types.get(step))
        current = inner[0] if inner else None
    return current


def keys_at(cls: type[Entry], loc: Loc) -> list[str]:
    """The keys that may stand in the part that a way of keys leads to."""
    found = part_at(cls, loc)
    return [yaml_key(spec.name) for spec in authored(found)] if found else []


def description_of(cls: type[Entry], loc: Loc) -> str:
    """What belongs behind the key that a way ends with, as the docs say it, for the middle of a sentence."""
    found = part_at(cls, loc[:-1])
    for spec in authored(found) if found else ():
        if yaml_key(spec.name) == loc[-1]:
            text = str(spec.metadata["description"])
            return text[0].lower() + text[1:] if text[1:2].islower() else text
    return ""
