"""A small invented house that tables are imported into: euros, grams, seven products."""

from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

HOUSE = """\
title: Casa de ensaio
currency: EUR
locale: pt-PT
batches: {g: [30, 60]}
scale_step: {g: 0.1}
rounding_tolerance: 5 %
on_scalp_developer_limit: 20 volume
review_after: 180 days
prices_stale_after: 365 days
"""
LIGHTENER = """\
name: {name}
kind: lightener
form: {form}
strength: medium
lifts: 7
mixing_ratio: {{usual: 1:2, from: 1:1, to: 1:3}}
placement: [open-air, foil]
developer_limit: 40 volume
"""
PRODUCTS = {
    "soft-clay": LIGHTENER.format(name="Soft clay", form="clay"),
    "violet-powder": LIGHTENER.format(name="Violet powder", form="powder"),
    "white-powder": LIGHTENER.format(name="White powder", form="powder"),
    "developer-10": "name: Developer 10 volume\nkind: developer\nvolume: 10\n",
    "developer-20": "name: Developer 20 volume\nkind: developer\nvolume: 20\nperoxide: 6 %\n",
    "pearl-toner": (
        "name: Pearl toner\nkind: toner\nform: cream\ntone: cool\n"
        "mixing_ratio: {usual: 1:2, from: 1:1, to: 1:3}\ndeveloper_limit: 20 volume\n"
    ),
    "bond-drops": "name: Bond drops\nkind: additive\ndoes: Guards bonds.\ndose: 8:1\n",
}


def write_house(root: Path, house: str = HOUSE) -> Path:
    """The folder of the house's book, without a blend."""
    (root / "products").mkdir(parents=True)
    (root / "house.yml").write_text(house, encoding="utf-8")
    for entry_id, text in PRODUCTS.items():
        (root / "products" / f"{entry_id}.yml").write_text(text, encoding="utf-8")
    return root


def entry(house: Path, path: str) -> Any:
    """An entry that was written, every value as its text, as ruamel.yaml reads it."""
    return YAML(typ="base", pure=True).load((house / f"{path}.yml").read_text(encoding="utf-8"))
