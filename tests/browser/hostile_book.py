"""A book in which every text that takes a hostile one has it: names, sentences, notes, titles, rules."""

import shutil
from pathlib import Path
from typing import Any

import yaml

from bowlbook.entries.validate import private_keys, validate
from bowlbook.reading.document import read_text

HOSTS = {
    "product": ("products", "bond-drops"),
    "blend": ("blends", "cool-foil-coarse"),
    "technique": ("techniques", "triangle-in-two-foils"),
    "situation": ("situations", "coarse-level-4-cool"),
    "class": ("classes", "open-air-or-foil"),
    "house": ("", "house"),
}
"""An entry of each kind with all that one can say."""


def leaves_of(value: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The ways to every text in an entry."""
    if isinstance(value, dict):
        return [each for key, inner in value.items() for each in leaves_of(inner, (*way, key))]
    if isinstance(value, list):
        return [each for place, inner in enumerate(value) for each in leaves_of(inner, (*way, place))]
    return [way]


def put(value: Any, way: tuple[Any, ...], text: str) -> Any:
    """The value with another text at the end of a way."""
    if not way:
        return text
    if isinstance(value, dict):
        return {key: put(inner, way[1:], text) if key == way[0] else inner for key, inner in value.items()}
    return [put(inner, way[1:], text) if place == way[0] else inner for place, inner in enumerate(value)]


def fits(kind: str, data: Any) -> bool:
    """Whether an entry with this data is read without an error."""
    source, found = read_text(yaml.safe_dump(data, sort_keys=False), "entry.yml", private_keys())
    _, more = validate(kind, "entry", source)
    return not any(each.severity == "error" for each in (*found, *more))


def write_hostile_book(folder: Path, recipes: Path, texts: list[str]) -> tuple[int, int]:
    """The demo book with one more entry of each kind for each text, and the first text in the house's fields.

    Returns how many fields took a hostile text, and how many refused one.
    """
    shutil.copytree(recipes, folder)
    taken = refused = 0
    for number, text in enumerate(texts):
        for kind, (place, stem) in HOSTS.items():
            if kind == "house" and number:
                continue
            source, _ = read_text((recipes / place / f"{stem}.yml").read_text("utf-8"), "x", private_keys())
            data = source.data
            for way in leaves_of(data):
                changed = put(data, way, text)
                if fits(kind, changed):
                    data, taken = changed, taken + 1
                else:
                    refused += 1
            data.pop("formerly", None)
            name = stem if kind == "house" else f"hostile-{number}-{stem}"
            path = folder / place / f"{name}.yml"
            path.write_text(yaml.safe_dump(data, sort_keys=False, allow_unicode=True), encoding="utf-8")
    return taken, refused
