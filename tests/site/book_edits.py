"""Edits of a generated book, of every kind that a day brings, each leaving it without an error."""

import random
import re
from collections.abc import Callable
from pathlib import Path

Edit = Callable[[Path, random.Random], None]


def changed(path: Path, old: str, new: str) -> None:
    """Put one text in the place of another, which must stand there."""
    text = path.read_text(encoding="utf-8")
    assert old in text, (path, old)
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def _one(root: Path, kind: str, draw: random.Random) -> Path:
    return draw.choice(sorted((root / kind).iterdir()))


def _retitled(root: Path, draw: random.Random) -> None:
    kind = draw.choice(["blends", "techniques", "situations", "products"])
    path = _one(root, kind, draw)
    changed(path, "name: ", f"name: Newly {draw.randint(1, 99)} ")


def _other_ratio(root: Path, draw: random.Random) -> None:
    path = _one(root, "blends", draw)
    text = re.sub(r"parts: \d", f"parts: {draw.randint(1, 3)}", path.read_text(encoding="utf-8"), count=1)
    path.write_text(text, encoding="utf-8")


def _other_heads(root: Path, draw: random.Random) -> None:
    path = _one(root, draw.choice(["blends", "techniques"]), draw)
    levels = f"natural_level: {draw.randint(1, 4)}-{draw.randint(5, 9)}"
    text = re.sub(r"suits: {natural_level: [\d-]+", f"suits: {{{levels}", path.read_text(encoding="utf-8"))
    path.write_text(text, encoding="utf-8")


def _other_notes(root: Path, draw: random.Random) -> None:
    changed(_one(root, "blends", draw), "notes: |\n", f"notes: |\n  Watch it for {draw.randint(5, 50)}.\n")


def _renamed(root: Path, draw: random.Random) -> None:
    path = _one(root, "blends", draw)
    other = path.with_name(f"renamed-{draw.randint(1, 10**6)}.yml")
    for each in root.rglob("*.yml"):
        text = each.read_text(encoding="utf-8")
        for end in (",", "}"):
            text = text.replace(f": {path.stem}{end}", f": {other.stem}{end}")
        each.write_text(text, encoding="utf-8")
    path.rename(other)


def _deleted(root: Path, draw: random.Random) -> None:
    situations = sorted((root / "situations").iterdir())
    if len(situations) > 1:
        draw.choice(situations).unlink()


def _added(root: Path, draw: random.Random) -> None:
    path = _one(root, "blends", draw)
    text = path.read_text(encoding="utf-8").replace("name: ", "name: Again ", 1)
    (root / "blends" / f"again-{draw.randint(1, 10**6)}.yml").write_text(text, encoding="utf-8")


def _other_price(root: Path, draw: random.Random) -> None:
    changed(root / "products" / "cream-lightener.yml", "price: ", f"price: {draw.randint(1, 9)}")


def _other_house(root: Path, draw: random.Random) -> None:
    changed(root / "house.yml", "title: ", f"title: {draw.choice(['Old', 'New', 'Other'])} ")


def _other_rule(root: Path, draw: random.Random) -> None:
    changed(root / "house.yml", "because: ", f"because: Since {draw.randint(1, 99)} ")


EDITS = (
    *(_retitled, _other_ratio, _other_heads, _other_notes, _renamed, _deleted, _added),
    *(_other_price, _other_house, _other_rule),
)
