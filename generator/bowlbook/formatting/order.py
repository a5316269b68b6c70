"""The one order of an entry's keys: the order in which the classes declare them.

A product's name, kind and summary come first, then what only its kind has, then what every product has.
"""

from typing import Any

from bowlbook.entries.entry import authored, parts_in, yaml_key
from bowlbook.entries.product import PRODUCT_KINDS, Product
from bowlbook.entries.validate import ENTRY_CLASSES
from bowlbook.formatting.tree import Branch, Leaf

FIRST = ("name", "kind", "summary", "other_names")
"""Keys of a product that come before those of its kind."""


def class_of(kind: str, product_kind: str | None) -> type[Any]:
    """The class of an entry of a kind; of a product by the word under its ``kind``."""
    return PRODUCT_KINDS.get(product_kind or "", Product) if kind == "product" else ENTRY_CLASSES[kind]


def keys_in_order(cls: type[Any]) -> dict[str, Any]:
    """The YAML keys of an entry or a part in order, each with the type of its value."""
    specs = {yaml_key(spec.name): spec.type for spec in authored(cls)}
    if not issubclass(cls, Product):
        return specs
    of_all = [yaml_key(spec.name) for spec in authored(Product)]
    own = [key for key in specs if key not in of_all]
    return {key: specs[key] for key in dict.fromkeys((*FIRST, *own, *of_all))}


def put_in_order(branch: Branch, cls: type[Any] | None) -> None:
    """Put the keys of a mapping, and of every part in it, in order; unknown keys stay behind them."""
    if cls is None:
        return
    order = keys_in_order(cls)
    if branch.keyed:
        places = {key: place for place, key in enumerate(order)}
        branch.items.sort(key=lambda item: places.get(item.key or "", len(places)))
    for item in branch.items:
        inner = parts_in(order.get(item.key or "")) if branch.keyed else (cls,)
        if isinstance(item.value, Branch):
            put_in_order(item.value, inner[0] if inner else None)


def product_kind(branch: Branch) -> str | None:
    """The word under ``kind`` of an entry's text."""
    kinds = (item.value for item in branch.items if item.key == "kind")
    return next((value.inline.strip("\"'") for value in kinds if isinstance(value, Leaf)), None)
